// What of the picture is lit, and the closed way that a loop is in it: by wires, along the
// bars of circuits, and through the earth of the venue, which no wire of the map is.

import type { GroundMap, MapLoop } from '../../../generated/contract'
import { RAIL, type Box, type Layout, type Point } from './layout'
import type { Choice } from './near'
import { nth } from './nth'
import { around } from './told'

export interface Lit {
  readonly wires: readonly number[]
  readonly places: readonly number[]
  /** The circuits whose ways to the earth of the venue are lit. */
  readonly circuits: readonly number[]
}

const NOTHING: Lit = { wires: [], places: [], circuits: [] }

export function litBy(map: GroundMap, choice: Choice | null): Lit {
  const loopOf = (at: number | null | undefined): Lit => {
    const loop = at === null || at === undefined ? undefined : map.loops[at]
    return loop === undefined ? NOTHING : litLoop(map, loop)
  }
  switch (choice?.kind) {
    case 'place':
      return { ...NOTHING, places: choice.at < map.places.length ? [choice.at] : [] }
    case 'wire':
      return { ...NOTHING, wires: choice.at < map.wires.length ? [choice.at] : [] }
    case 'input': {
      const input = map.inputs[choice.at]
      const lit = loopOf(input?.by)
      return lit.wires.length > 0 || input === undefined ? lit : { ...NOTHING, wires: [input.wire] }
    }
    case 'loop':
      return loopOf(choice.at)
    case undefined:
      return NOTHING
  }
}

/** The loop that matters most: that of the worst input, else the loudest. */
export function worstLoop(map: GroundMap): Lit {
  const loop = map.loops[map.inputs[0]?.by ?? 0]
  return loop === undefined ? NOTHING : litLoop(map, loop)
}

function litLoop(map: GroundMap, loop: MapLoop): Lit {
  const { wires } = loop
  const stops = around(map, loop)
  const beside = stops.flatMap(({ place }, at) =>
    place === null ? [stops.at(at - 1)?.place, stops[(at + 1) % stops.length]?.place] : [],
  )
  const circuits = [...new Set(beside.filter(place => typeof place === 'number'))]
  return { wires, places: [...new Set(wires.flatMap(wire => nth(map.wires, wire).ends))], circuits }
}

/** The boxes among the lit places; bars are lit as far as a loop goes along them. */
export function litBoxes({ places }: GroundMap, layout: Layout, lit: Lit): Box[] {
  const isAlone = lit.wires.length === 0
  return lit.places.filter(at => isAlone || nth(places, at).kind !== 'circuit').map(at => nth(layout.boxes, at))
}

/** Where a loop goes along bars and through the earth of the venue. */
export function litEarths({ places, wires }: GroundMap, { boxes, ways, venue }: Layout, lit: Lit): Point[][] {
  const found: Point[][] = []
  for (const circuit of lit.wires.length === 0 ? [] : lit.places) {
    if (nth(places, circuit).kind !== 'circuit') continue
    const bar = nth(boxes, circuit)
    const rail = bar.y + RAIL
    const feet = lit.wires.flatMap(wire => {
      const end = nth(wires, wire).ends.indexOf(circuit)
      return end < 0 ? [] : [nth(nth(ways, wire), end === 0 ? 0 : nth(ways, wire).length - 1)]
    })
    const goesOn = venue !== null && lit.circuits.includes(circuit)
    const xs = [...feet.map(([x]) => x), ...(goesOn ? [venue.x + venue.width / 2] : [])]
    for (const [x, y] of feet)
      found.push([
        [x, y],
        [x, rail],
      ])
    if (xs.length > 1)
      found.push([
        [Math.min(...xs), rail],
        [Math.max(...xs), rail],
      ])
  }
  if (venue !== null && lit.circuits.length > 1) {
    const ys = lit.circuits.map(circuit => nth(boxes, circuit)).map(({ y }) => y + RAIL)
    const x = venue.x + venue.width / 2
    found.push([
      [x, Math.min(...ys)],
      [x, Math.max(...ys)],
    ])
  }
  return found
}

/** What is lit, or nothing. */
export function litBox(map: GroundMap, layout: Layout, lit: Lit): Box | null {
  const corners = litBoxes(map, layout, lit).flatMap(({ x, y, width, height }): Point[] =>
    // A bar alone is seen by its beginning.
    [
      [x, y],
      [x + Math.min(width, MOST_SEEN), y + height],
    ],
  )
  const points = [
    ...corners,
    ...lit.wires.flatMap(wire => nth(layout.ways, wire)),
    ...litEarths(map, layout, lit).flat(),
  ]
  if (points.length === 0) return null
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)]
  const [x, y] = [Math.min(...xs), Math.min(...ys)]
  return {
    x: x - AROUND,
    y: y - AROUND,
    width: Math.max(...xs) - x + 2 * AROUND,
    height: Math.max(...ys) - y + 2 * AROUND,
  }
}

const MOST_SEEN = 400
/** Room around what is lit. */
const AROUND = 16
