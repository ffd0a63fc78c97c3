// Where along the signal's way each place of the ground map stands, and in which lane.

import type { GroundMap, MapWire } from '../../../generated/contract'
import { nth } from './nth'

/** Sources, boxes, stage boxes, consoles; what is joined by links alone stands among these. */
const MOST_COLUMNS = 8

/** The column of each place, from 0 on. */
export function columnsOf({ places, wires }: GroundMap): number[] {
  const column = places.map(() => 0)
  const on = wires.filter(goesOn)
  const into = grouped(places.length, on)
  // A ring of leads would push its places on for ever, so it stops at the last column.
  for (let pass = 1; pass < MOST_COLUMNS; pass++) {
    let moved = false
    for (const { ends } of on) {
      const next = Math.min(nth(column, ends[0]) + 1, MOST_COLUMNS - 1)
      if (next <= nth(column, ends[1])) continue
      column[ends[1]] = next
      moved = true
    }
    if (!moved) break
  }
  linkedAlone(column, wires, into)
  return closed(column, places.length)
}

/** What no line touches stands one column before or behind what a link joins it to. */
function linkedAlone(column: number[], wires: readonly MapWire[], touched: readonly boolean[]): void {
  const known = [...touched]
  const last = Math.max(0, ...column)
  const links = wires.filter(({ kind }) => kind === 'link' || kind === 'metalwork')
  for (let found = true; found;) {
    found = false
    for (const { ends } of links) {
      const [from, to] = ends
      if (known[from] === known[to]) continue
      const [place, at] = known[from] === true ? [to, nth(column, from) + 1] : [from, nth(column, to) - 1]
      column[place] = Math.min(Math.max(at, 0), last)
      known[place] = true
      found = true
    }
  }
}

/** Leaves out columns that nothing stands in. */
function closed(column: readonly number[], count: number): number[] {
  const used = [...new Set(column.slice(0, count))].sort((a, b) => a - b)
  const order = new Map(used.map((old, now) => [old, now]))
  return column.map(old => order.get(old) ?? 0)
}

function grouped(count: number, wires: readonly MapWire[]): boolean[] {
  const touched = Array.from({ length: count }, () => false)
  for (const { ends } of wires) for (const end of ends) touched[end] = true
  return touched
}

/** Whether a wire has a direction, from its first end to its second. */
function goesOn({ kind }: MapWire): boolean {
  return kind === 'line' || kind === 'lead' || kind === 'thru' || kind === 'split'
}

/** The circuits, in their order, by the places of their earths. */
export function circuitsOf({ places }: GroundMap): number[] {
  return places.flatMap(({ kind }, place) => (kind === 'circuit' ? [place] : []))
}

/** The lane of each place, from 0 on; behind those of the circuits comes that of what is on none. */
export function lanesOf(map: GroundMap): number[] {
  const { places, wires } = map
  const circuits = circuitsOf(map)
  const lanes = new Map(circuits.map((place, lane) => [nth(places, place).id, lane]))
  const lane = places.map(({ circuit }) => lanes.get(circuit) ?? circuits.length)
  // A joint stands beside what it is plugged into: its source, else what comes behind it.
  for (const [place, { kind }] of places.entries()) {
    if (kind !== 'joint') continue
    const at = wires.filter(({ ends }) => ends.includes(place))
    const beside = at.find(({ ends }) => ends[1] === place) ?? at[0]
    const other = beside?.ends.find(end => end !== place)
    if (other !== undefined) lane[place] = nth(lane, other)
  }
  return lane
}
