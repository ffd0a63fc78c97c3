// The ground map as a picture. Nothing in it listens: who touches it is told by where
// that was, so it may hold a thousand wires.

import type { GroundMap, MapWire } from '../../../generated/contract'
import { memo } from '../../base/memo'
import { say } from '../../base/words'
import { EarthView } from '../../rig/symbols'
import { BAR, type Box, type Lane, type Layout, type Point } from './layout'
import { amperes, earthTold, placeName } from './told'
import { nth } from './nth'

interface Properties {
  readonly map: GroundMap
  readonly layout: Layout
}

/** What is lit: the wires and places of a loop, or one of these. */
export interface Lit {
  readonly wires: readonly number[]
  readonly places: readonly number[]
}

export function Drawing({ map, layout, lit }: Properties & { readonly lit: Lit }) {
  const { width, height } = layout
  return (
    <svg class="diagram ground" width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <Still map={map} layout={layout} />
      <LitView map={map} layout={layout} lit={lit} />
    </svg>
  )
}

/** All of it but what is lit. */
const Still = memo(({ map, layout }: Properties) => (
  <>
    {layout.lanes.map((lane, index) => (
      <LaneView key={index} map={map} lane={lane} />
    ))}
    {map.wires.map((wire, index) => (
      <WireView key={index} wire={wire} way={nth(layout.ways, index)} />
    ))}
    {map.places.map((place, index) =>
      place.kind === 'circuit' ? null : (
        <PlaceView key={index} map={map} place={index} box={nth(layout.boxes, index)} />
      ),
    )}
  </>
))

function LaneView({ map, lane }: { readonly map: GroundMap; readonly lane: Lane }) {
  const { x, y, width, height, circuit } = lane
  const place = circuit === null ? null : nth(map.places, circuit)
  const foot = y + height - BAR
  return (
    <>
      <rect class="lane" x={x} y={y} width={width} height={height} rx="10" />
      {place !== null && (
        <>
          <rect class="bar" x={x} y={foot} width={width} height={BAR} rx="6" />
          <g transform={`translate(${x + 20} ${foot + BAR / 2})`}>
            <g transform="scale(0.75)">
              <EarthView earth="protective" />
            </g>
          </g>
        </>
      )}
      <text class="bar-name" x={x + (place === null ? 12 : 38)} y={foot + BAR / 2 + 5}>
        {place === null ? say('stage-map-no-circuit') : earthTold(place)}
      </text>
    </>
  )
}

/** Letters that a line in a box has room for. */
const LETTERS = 18

function PlaceView({ map, place, box }: { readonly map: GroundMap; readonly place: number; readonly box: Box }) {
  const there = nth(map.places, place)
  const { kind, power, leaks } = there
  const { x, y, width, height } = box
  const middle = y + height / 2
  const lines = linesOf(placeName(there))
  return (
    <>
      <rect
        class={kind === 'joint' ? 'box joined' : 'box'}
        {...{ x, y, width, height }}
        rx={kind === 'joint' ? 16 : 4}
      />
      {lines.map((line, index) => (
        <text key={index} class="place-name" x={x + 10} y={middle + 16 * index - 10 * lines.length + 6}>
          {line}
        </text>
      ))}
      {power !== null && (
        <g class="mark" transform={`translate(${x + 18} ${middle + 18})`}>
          <PowerMark power={power} />
        </g>
      )}
      <text class="place-power" x={x + (power === null ? 10 : 32)} y={middle + 22}>
        {kind === 'joint' ? say('stage-map-joint') : leaks === null ? say(`stage-map-short-${power}`) : amperes(leaks)}
      </text>
    </>
  )
}

/** A name in one line, or in two that break between words; the rest of it is left to the list. */
function linesOf(name: string): string[] {
  if ([...name].length <= LETTERS) return [name]
  const space = name.lastIndexOf(' ', LETTERS)
  return space <= 0 ? [short(name)] : [name.slice(0, space), short(name.slice(space + 1))]
}

function short(name: string): string {
  const letters = [...name]
  return letters.length <= LETTERS ? name : `${letters.slice(0, LETTERS - 1).join('')}…`
}

/** An earth, a box in a box for double insulation, a cell; after IEC 60617 and IEC 60417 (from memory). */
function PowerMark({ power }: { readonly power: 'earthed' | 'insulated' | 'battery' }) {
  if (power === 'insulated') return <path class="drawn" d="M-7-7H7V7H-7ZM-3.500-3.500H3.500V3.500H-3.500Z" />
  if (power === 'battery') return <path class="drawn" d="M-9 0H-2M-2-8V8M2-4V4M2 0H9" />
  return <path class="drawn" d="M0-8V-1M-8-1H8M-5 3H5M-2 7H2" />
}

function WireView({ wire, way }: { readonly wire: MapWire; readonly way: readonly Point[] }) {
  return (
    <>
      <path
        class={`way ${wire.kind} flow-${step(wire.amperes)}${wire.ohms === null ? ' apart' : ''}`}
        d={pathOf(way)}
      />
      {isShielded(wire) && <Ends wire={wire} way={way} />}
      {wire.kind === 'earth' && <circle class="dot-of-earth" cx={footOf(way)[0]} cy={footOf(way)[1]} r="3" />}
    </>
  )
}

function isShielded({ kind, shield }: MapWire): boolean {
  return kind !== 'earth' && kind !== 'metalwork' && shield !== 'both'
}

function footOf(way: readonly Point[]): Point {
  return nth(way, 0)
}

/** How far from its box a shield shows how it ends. */
const FROM_BOX = 19

/** How a shield ends, beside the box that it goes to; one that is open at both is so beside both. */
function Ends({ wire: { shield }, way }: { readonly wire: MapWire; readonly way: readonly Point[] }) {
  const [[x, y], [before]] = [nth(way, way.length - 1), nth(way, way.length - 2)]
  const [[from, height], [after]] = [nth(way, 0), nth(way, 1)]
  const end = x + FROM_BOX * Math.sign(before - x)
  const begin = from + FROM_BOX * Math.sign(after - from)
  return (
    <>
      <g transform={`translate(${end} ${y})`}>{SHIELDS[shield]}</g>
      {shield === 'none' && <g transform={`translate(${begin} ${height})`}>{SHIELDS.none}</g>}
    </>
  )
}

const OPEN = (
  <>
    <rect class="cover" x="-4" y="-3" width="8" height="6" />
    <path class="drawn thin" d="M-4-4V4M4-4V4" />
  </>
)

/** A gap; windings that meet; light between; waves. */
const SHIELDS = {
  both: null,
  one: OPEN,
  none: OPEN,
  transformer: (
    <>
      <rect class="cover" x="-7" y="-4" width="14" height="8" />
      <circle class="drawn thin" cx="-2.500" r="4" />
      <circle class="drawn thin" cx="2.500" r="4" />
    </>
  ),
  optical: (
    <>
      <rect class="cover" x="-7" y="-4" width="14" height="8" />
      <path class="drawn thin" d="M-6-4V4L-1 0ZM6-4V4M0-2L4-4M4-4L2-4.500M0 2L4 0" />
    </>
  ),
  radio: (
    <>
      <rect class="cover" x="-7" y="-4" width="14" height="8" />
      <path class="drawn thin" d="M-6-4L-4 0L-6 4M-1-4L1 0L-1 4M4-4L6 0L4 4" />
    </>
  ),
} as const

/** Currents from which on a wire is drawn a step wider, A. */
const STEPS = [1e-4, 1e-3, 1e-2, 1e-1]

/** How wide a wire is drawn, in steps of ten in its current. */
export function step(current: number): number {
  return STEPS.filter(least => current >= least).length
}

function pathOf(way: readonly Point[]): string {
  let path = ''
  for (const [index, [x, y]] of way.entries()) {
    const [before, after] = [way[index - 1], way[index + 1]]
    if (before === undefined || after === undefined) {
      path += `${before === undefined ? 'M' : 'L'}${tenth(x)} ${tenth(y)}`
      continue
    }
    const [from, to] = [toward([x, y], before), toward([x, y], after)]
    path += `L${tenth(from[0])} ${tenth(from[1])}Q${tenth(x)} ${tenth(y)} ${tenth(to[0])} ${tenth(to[1])}`
  }
  return path
}

/** Where a corner begins to be round. */
function toward([x, y]: Point, [toX, toY]: Point): Point {
  const length = Math.hypot(toX - x, toY - y)
  const part = length === 0 ? 0 : Math.min(5, length / 2) / length
  return [x + (toX - x) * part, y + (toY - y) * part]
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10
}

function LitView({ map, layout, lit }: Properties & { readonly lit: Lit }) {
  if (lit.wires.length === 0 && lit.places.length === 0) return null
  const path = (wire: number) => pathOf(nth(layout.ways, wire))
  return (
    <g class="lit">
      {lit.places.map(place => {
        const { x, y, width, height } = nth(layout.boxes, place)
        return (
          <rect key={place} class="around" {...{ x: x - 3, y: y - 3, width: width + 6, height: height + 6 }} rx="6" />
        )
      })}
      {lit.wires.map(wire => (
        <path key={`${wire} under`} class="under" d={path(wire)} />
      ))}
      {lit.wires.map(wire => (
        <path key={wire} class="around" d={path(wire)} />
      ))}
      {lit.wires.map(wire => (
        <FlowView key={wire} wire={nth(map.wires, wire)} way={nth(layout.ways, wire)} />
      ))}
    </g>
  )
}

/** The current of a lit wire, in the middle of its longest stretch. */
function FlowView({ wire, way }: { readonly wire: MapWire; readonly way: readonly Point[] }) {
  const stretches = way.slice(1).map((to, index) => ({ from: nth(way, index), to }))
  const length = ({ from, to }: { readonly from: Point; readonly to: Point }) =>
    Math.abs(to[0] - from[0]) + Math.abs(to[1] - from[1])
  const longest = stretches.reduce((a, b) => (length(b) > length(a) ? b : a))
  const [x, y] = [0, 1].map(at => (nth(longest.from, at) + nth(longest.to, at)) / 2) as [number, number]
  return (
    <text class="flow" x={x} y={y + 4}>
      {wire.ohms === null ? say('stage-map-no-current') : amperes(wire.amperes)}
    </text>
  )
}
