// The letters of the picture: of what is in view, and never smaller than can be read. Where
// the map is small there is less of them.

import type { GroundMap } from '../../../generated/contract'
import { memo } from '../../base/memo'
import { say } from '../../base/words'
import { BAR, RAIL, type Box, type Layout, type Point } from './layout'
import type { Lit } from './lit'
import { powerMark } from './marks'
import { nth } from './nth'
import type { View } from './sheet'
import { amperes, earthShort, earthTold, enteredFor, placeName } from './told'

interface Properties {
  readonly map: GroundMap
  readonly layout: Layout
  readonly lit: Lit
  readonly view: View | null
}

/** The least that letters are on the screen, px. */
const LEAST = 11
/** From which scale on every box has its name, and what it is on too. */
const NAMES = 0.45
const DETAILS = 0.84
/** How wide a letter is re its height, about. */
const LETTER = 0.6
const INSET = 10
/** Letters of a name that has no room of its own. */
const FREE_LETTERS = 18

export const Labels = memo(({ map, layout, lit, view }: Properties) => {
  const scale = view?.scale ?? 1
  const sized = (size: number) => Math.round(Math.max(size, LEAST / scale) * 10) / 10
  const lights = new Set(lit.places)
  const seen = map.places.flatMap((place, at) => {
    const box = nth(layout.boxes, at)
    const isNamed = place.kind !== 'circuit' && (scale >= NAMES || lights.has(at))
    return isNamed && isSeen(view, box) ? [{ at, box }] : []
  })
  return (
    <>
      {layout.lanes.map((_, at) => (
        <LaneName
          key={`lane ${at}`}
          map={map}
          layout={layout}
          lane={at}
          view={view}
          size={sized(15)}
          small={scale < NAMES}
        />
      ))}
      {layout.venue !== null && (
        <VenueNames map={map} layout={layout} view={view} size={sized(13)} small={scale < NAMES} />
      )}
      {scale >= DETAILS && <path class="drawn" d={seen.map(({ at, box }) => powerOf(map, at, box)).join('')} />}
      {seen.map(({ at, box }) => (
        <PlaceName key={at} map={map} place={at} box={box} view={view} size={sized(13)} />
      ))}
      {flows(map, layout, lit, sized(15)).map(({ wire, x, y, text }) => (
        <text key={`flow ${wire}`} class="flow" x={x} y={y} font-size={sized(15)} stroke-width={sized(15) / 3}>
          {text}
        </text>
      ))}
    </>
  )
})

function isSeen(view: View | null, { x, y, width, height }: Box): boolean {
  if (view === null) return true
  const { box } = view
  return x < box.x + box.width && x + width > box.x && y < box.y + box.height && y + height > box.y
}

interface LaneNameProperties extends Pick<Properties, 'map' | 'layout' | 'view'> {
  readonly lane: number
  readonly size: number
  /** Whether letters are large beside what they name. */
  readonly small: boolean
}

/** The name of a circuit on its bar, where that is in view. */
function LaneName({ map, layout, lane, view, size, small }: LaneNameProperties) {
  const { x, y, height, width, circuit } = nth(layout.lanes, lane)
  const place = circuit === null ? null : nth(map.places, circuit)
  const foot = y + height - BAR
  if (!isSeen(view, { x, y: foot, width, height: BAR })) return null
  const begin = x + (place === null ? 12 : 38)
  const text = place === null ? say('stage-map-no-circuit') : small ? earthShort(place) : earthTold(place)
  const most = Math.max(begin, x + width - LETTER * size * text.length)
  return (
    <text
      class="bar-name"
      x={Math.min(most, Math.max(begin, view === null ? 0 : view.left + 8 / view.scale))}
      y={foot + RAIL - 0.3 * size - 3}
      font-size={size}
      stroke-width={size / 2.5}
    >
      {text}
    </text>
  )
}

/** What the earth of the venue is called, and what lies between it and each circuit. */
function VenueNames({ map, layout: { venue, boxes }, view, size, small }: Omit<LaneNameProperties, 'lane'>) {
  if (venue === null) return null
  const { x, y, width, height } = venue
  const [top, foot] = view === null ? [y, y + height] : [Math.max(y, view.top), Math.min(y + height, view.bottom)]
  const place = small
    ? `translate(${x + width + 8} ${y + height + size})`
    : `translate(${x - 8} ${(top + foot) / 2}) rotate(-90)`
  const circuits = map.places.flatMap((place, at) =>
    place.kind === 'circuit' ? [{ place, box: nth(boxes, at), at }] : [],
  )
  return (
    <>
      {(small || foot > top) && (
        <text
          class={small ? 'venue-name' : 'venue-name beside'}
          transform={place}
          font-size={size}
          stroke-width={size / 2.5}
        >
          {say('stage-map-key-venue')}
        </text>
      )}
      {/* Where there is no room, the bars say it too. */}
      {(small ? [] : circuits).map(({ place, box, at }) => (
        <text
          key={at}
          class="difference"
          x={box.x - 8}
          y={box.y + RAIL - 16}
          font-size={size}
          stroke-width={size / 2.5}
        >
          {enteredFor(place)}
        </text>
      ))}
    </>
  )
}

/** Where in a box the mark of its supply is. */
function powerOf({ places }: GroundMap, at: number, { x, y, height }: Box): string {
  const { power } = nth(places, at)
  return power === null ? '' : powerMark(power, [x + 18, y + height / 2 + 18])
}

interface PlaceNameProperties {
  readonly map: GroundMap
  readonly place: number
  readonly box: Box
  readonly view: View | null
  readonly size: number
}

function PlaceName({ map, place, box, view, size }: PlaceNameProperties) {
  const scale = view?.scale ?? 1
  const there = nth(map.places, place)
  const { kind, power, leaks } = there
  const { x, y, width, height } = box
  const isDetailed = scale >= DETAILS
  const room = Math.floor((width - 1.6 * INSET) / (LETTER * size))
  const lines = linesOf(placeName(there), scale >= NAMES ? room : FREE_LETTERS)
  const isFree = scale < NAMES
  // One that is wider than its box stays in view.
  const most = isFree && view !== null ? view.right - LETTER * size * nth(lines, 0).length : Infinity
  const middle = y + height / 2 - (isDetailed ? 10 : 0)
  const first = middle + 0.35 * size - (1.2 * size * (lines.length - 1)) / 2
  return (
    <>
      {lines.map((line, index) => (
        <text
          key={index}
          class={isFree ? 'place-name free' : 'place-name'}
          x={Math.min(x + INSET, most)}
          y={first + 1.2 * size * index}
          font-size={size}
        >
          {line}
        </text>
      ))}
      {isDetailed && (
        <text class="place-power" x={x + (power === null ? INSET : 32)} y={y + height / 2 + 22} font-size={size - 1}>
          {kind === 'joint'
            ? say('stage-map-joint')
            : leaks === null
              ? say(`stage-map-short-${power}`)
              : amperes(leaks)}
        </text>
      )}
    </>
  )
}

/** A name in one line, or in two that break between words; the rest of it is left to the list. */
function linesOf(name: string, letters: number): string[] {
  if ([...name].length <= letters) return [name]
  const space = name.lastIndexOf(' ', letters)
  return space <= 0 ? [short(name, letters)] : [name.slice(0, space), short(name.slice(space + 1), letters)]
}

function short(name: string, most: number): string {
  const letters = [...name]
  return letters.length <= most ? name : `${letters.slice(0, most - 1).join('')}…`
}

/** Where along a stretch a current may stand. */
const ALONG = [0.5, 0.3, 0.7, 0.15, 0.85]

interface Flow {
  readonly wire: number
  readonly x: number
  readonly y: number
  readonly text: string
}

/** The currents of lit wires, each on its longest stretch where it hides no other and no box. */
function flows({ wires }: GroundMap, layout: Layout, lit: Lit, size: number): Flow[] {
  const taken: Box[] = lit.places.map(place => nth(layout.boxes, place))
  return lit.wires.map(at => {
    const wire = nth(wires, at)
    const text = wire.ohms === null ? say('stage-map-no-current') : amperes(wire.amperes)
    const around = ([x, y]: Point): Box => {
      const width = LETTER * size * text.length
      return { x: x - width / 2, y: y - size / 2, width, height: size }
    }
    const points = pointsOf(nth(layout.ways, at))
    const free = points.find(point => !taken.some(other => meets(around(point), other)))
    const [x, y] = free ?? nth(points, 0)
    taken.push(around([x, y]))
    return { wire: at, x, y: y + 0.35 * size, text }
  })
}

/** Points along a way, those on its longest stretch first. */
function pointsOf(way: readonly Point[]): Point[] {
  const stretches = way.slice(1).map((to, index) => ({ from: nth(way, index), to }))
  const length = ({ from, to }: (typeof stretches)[number]) => Math.abs(to[0] - from[0]) + Math.abs(to[1] - from[1])
  return stretches
    .sort((a, b) => length(b) - length(a))
    .flatMap(({ from, to }) =>
      ALONG.map((part): Point => [from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])]),
    )
}

function meets(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height
}
