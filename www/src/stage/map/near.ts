// What stands where the picture was touched.

import type { Layout, Point } from './layout'
import { nth } from './nth'

/** What of the map is chosen. */
export type Choice =
  | { readonly kind: 'place'; readonly at: number }
  | { readonly kind: 'wire'; readonly at: number }
  | { readonly kind: 'input'; readonly at: number }
  | { readonly kind: 'loop'; readonly at: number }

/** The box that holds a point, else the wire that is nearest, if that is no farther than `reach`. */
export function near({ boxes, lanes, ways }: Layout, point: Point, reach: number): Choice | null {
  const bars = new Set(lanes.map(({ circuit }) => circuit))
  const box = boxes.findIndex(({ x, y, width, height }, place) => {
    return !bars.has(place) && inside(point[0] - x, width) && inside(point[1] - y, height)
  })
  if (box >= 0) return { kind: 'place', at: box }
  let [nearest, least] = [-1, reach]
  ways.forEach((way, wire) => {
    for (let corner = 1; corner < way.length; corner++) {
      const distance = fromStretch(point, nth(way, corner - 1), nth(way, corner))
      if (distance < least) [nearest, least] = [wire, distance]
    }
  })
  if (nearest >= 0) return { kind: 'wire', at: nearest }
  const bar = boxes.findIndex(({ y, height }, place) => bars.has(place) && inside(point[1] - y, height))
  return bar >= 0 ? { kind: 'place', at: bar } : null
}

function inside(from: number, length: number): boolean {
  return from >= 0 && from <= length
}

function fromStretch([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay]
  const square = dx * dx + dy * dy
  const along = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square))
  return Math.hypot(x - ax - along * dx, y - ay - along * dy)
}
