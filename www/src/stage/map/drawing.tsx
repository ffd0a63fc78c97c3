// The ground map as a picture. Nothing in it listens: who touches it is told by where
// that was. All that is drawn alike is one path, so that a thousand wires are moved as a
// few elements are; letters are drawn of what is in view alone (`labels.tsx`).

import type { GroundMap, MapWire } from '../../../generated/contract'
import { memo } from '../../base/memo'
import { EarthView } from '../../rig/symbols'
import { BAR, RAIL, type Layout, type Point } from './layout'
import { Labels } from './labels'
import { litBoxes, litEarths, type Lit } from './lit'
import { boxPath, dotMark, earthMark, shieldCover, shieldMark, sourceMark, wayPath } from './marks'
import { nth } from './nth'
import type { View } from './sheet'
import { enteredFor } from './told'

interface Properties {
  readonly map: GroundMap
  readonly layout: Layout
}

interface DrawingProperties extends Properties {
  readonly lit: Lit
  /** What of it is seen, and how large; nothing where all is, as large as it is. */
  readonly view: View | null
}

export function Drawing({ map, layout, lit, view }: DrawingProperties) {
  const { width, height } = layout
  return (
    <svg class="diagram ground" width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <Still map={map} layout={layout} />
      <LitView map={map} layout={layout} lit={lit} />
      <Labels map={map} layout={layout} lit={lit} view={view} />
    </svg>
  )
}

/** All of it but what is lit, and letters. */
const Still = memo(({ map, layout }: Properties) => {
  const { lanes, boxes, venue } = layout
  const bars = lanes.filter(({ circuit }) => circuit !== null)
  const all = (kind: 'equipment' | 'joint', round: number) =>
    map.places.map((place, at) => (place.kind === kind ? boxPath(nth(boxes, at), round) : '')).join('')
  return (
    <>
      <path class="lane" d={lanes.map(lane => boxPath(lane, 10)).join('')} />
      {venue !== null && <VenueView map={map} layout={layout} />}
      <path
        class="bar"
        d={bars.map(({ x, y, width, height }) => boxPath({ x, y: y + height - BAR, width, height: BAR }, 6)).join('')}
      />
      {bars.map(({ x, y, height }) => (
        <g key={y} transform={`translate(${x + 20} ${y + height - BAR + RAIL / 2}) scale(0.75)`}>
          <EarthView earth="protective" />
        </g>
      ))}
      <Wires map={map} layout={layout} />
      <path class="box" d={all('equipment', 4)} />
      <path class="box joined" d={all('joint', 16)} />
    </>
  )
})

/** The earth of the venue, to which that of each circuit goes, with what lies between. */
function VenueView({ map, layout: { boxes, venue } }: Properties) {
  if (venue === null) return null
  const middle = venue.x + venue.width / 2
  const circuits = map.places.flatMap((place, at) => (place.kind === 'circuit' ? [{ place, box: nth(boxes, at) }] : []))
  const over = circuits.map(({ place, box }) => {
    const y = box.y + RAIL
    const differs = enteredFor(place) !== ''
    return { d: `M${middle} ${y}H${box.x}`, source: differs ? sourceMark([box.x - SOURCE, y]) : '' }
  })
  const foot = venue.y + venue.height
  return (
    <>
      <path class="drawn venue-way" d={over.map(({ d }) => d).join('')} />
      <path class="filled" d={over.map(({ source }) => source).join('')} />
      <path class="bar venue" d={boxPath(venue, 6)} />
      <path class="drawn" d={earthMark([middle, foot + 14])} />
    </>
  )
}

/** How far before its bar a difference is drawn. */
const SOURCE = 24

/** The wires, those of a kind with about the same current as one path. */
function Wires({ map, layout: { ways } }: Properties) {
  const paths = new Map<string, string>()
  let [covers, marks, dots] = ['', '', '']
  map.wires.forEach((wire, at) => {
    const way = nth(ways, at)
    const look = `${kindOf(wire)} flow-${step(wire.amperes)}${wire.ohms === null ? ' apart' : ''}`
    paths.set(look, `${paths.get(look) ?? ''}${wayPath(way)}`)
    for (const point of endsOf(wire, way)) {
      covers += shieldCover(wire.shield, point)
      marks += shieldMark(wire.shield, point)
    }
    if (wire.kind === 'earth')
      dots += dotMark(nth(way, map.places[wire.ends[0]]?.kind === 'circuit' ? 0 : way.length - 1), 3)
  })
  return (
    <>
      {[...paths].map(([look, d]) => (
        <path key={look} class={`way ${look}`} d={d} />
      ))}
      {[...paths].map(([look, d]) =>
        look.startsWith('metalwork') ? <path key={look} class="way inner" d={d} /> : null,
      )}
      <path class="dot-of-earth" d={dots} />
      <path class="cover" d={covers} />
      <path class="drawn thin" d={marks} />
    </>
  )
}

/** As what a wire is drawn: a signal lead, whatever part of a line that is, or as it is. */
function kindOf({ kind }: MapWire): string {
  return kind === 'earth' || kind === 'metalwork' || kind === 'link' ? kind : 'line'
}

/** How far from its box a shield shows how it ends. */
const FROM_BOX = 19

/** Where a shield shows how it ends: at the box that it goes to, and one that is open at both at both. */
function endsOf({ kind, shield }: MapWire, way: readonly Point[]): Point[] {
  if (kind === 'earth' || kind === 'metalwork' || shield === 'both') return []
  const [[x, y], [before]] = [nth(way, way.length - 1), nth(way, way.length - 2)]
  const [[from, height], [after]] = [nth(way, 0), nth(way, 1)]
  const end: Point = [x + FROM_BOX * Math.sign(before - x), y]
  return shield === 'none' ? [end, [from + FROM_BOX * Math.sign(after - from), height]] : [end]
}

/** Currents from which on a wire is drawn a step wider, A. */
const STEPS = [1e-4, 1e-3, 1e-2, 1e-1]

/** How wide a wire is drawn, in steps of ten in its current. */
export function step(current: number): number {
  return STEPS.filter(least => current >= least).length
}

function LitView({ map, layout, lit }: Properties & { readonly lit: Lit }) {
  if (lit.wires.length === 0 && lit.places.length === 0) return null
  const ways = [...lit.wires.map(wire => nth(layout.ways, wire)), ...litEarths(map, layout, lit)].map(wayPath).join('')
  const around = litBoxes(map, layout, lit).map(({ x, y, width, height }) =>
    boxPath({ x: x - 3, y: y - 3, width: width + 6, height: height + 6 }, 6),
  )
  return (
    <g class="lit">
      <path class="under" d={ways} />
      <path class="around" d={`${ways}${around.join('')}`} />
    </g>
  )
}
