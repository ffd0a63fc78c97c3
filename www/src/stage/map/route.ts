// The way of a wire: out of a box to a gutter, there to its height or to the channel over
// a lane and along that, and into the other box.

import type { GroundMap } from '../../../generated/contract'
import type { Box, Cell, Point } from './layout'
import { nth } from './nth'

export interface Port {
  readonly place: number
  /** At the left, or at the right. */
  readonly side: 0 | 1
}

export interface Route {
  readonly wire: number
  readonly ports: readonly [Port, Port]
  /** The gutters, each counted by the column behind it, at either end. */
  readonly gutters: readonly [number, number]
  /** Whether one gutter goes all the way. */
  readonly direct: boolean
  /** The lane over which it goes where it does not. */
  readonly lane: number
}

/** The way of each wire; nothing for the earths, which go to the bar of their lane. */
export function routed(
  { places, wires }: GroundMap,
  column: readonly number[],
  cells?: readonly Cell[],
): (Route | null)[] {
  return wires.map(({ ends }, wire) => {
    if (ends.some(end => nth(places, end).kind === 'circuit')) return null
    const [a, b] = ends.map(end => nth(column, end)) as [number, number]
    const sides: [0 | 1, 0 | 1] = a < b ? [1, 0] : a > b ? [0, 1] : [1, 1]
    const gutters: [number, number] = [a + sides[0], b + sides[1]]
    return {
      wire,
      ports: [
        { place: ends[0], side: sides[0] },
        { place: ends[1], side: sides[1] },
      ],
      gutters,
      direct: gutters[0] === gutters[1],
      lane: cells === undefined ? 0 : nth(cells, ends[1]).lane,
    }
  })
}

interface Places {
  readonly boxes: readonly Box[]
  /** Where it goes up or down in a gutter. */
  readonly x: (gutter: number) => number
  /** How high it is at either end. */
  readonly port: (end: 0 | 1) => number
  readonly channel: (wire: number) => number
}

export function drawn({ wire, ports, gutters, direct }: Route, { boxes, x, port, channel }: Places): Point[] {
  const edge = (end: 0 | 1): Point => {
    const { place, side } = ports[end]
    const box = nth(boxes, place)
    return [box.x + side * box.width, port(end)]
  }
  const [a, b] = [edge(0), edge(1)]
  const [first, last] = [x(gutters[0]), x(gutters[1])]
  if (direct) return [a, [first, a[1]], [first, b[1]], b]
  const y = channel(wire)
  return [a, [first, a[1]], [first, y], [last, y], [last, b[1]], b]
}
