// Where labels stand in a plot: beside what they name, off each other and off
// the curves as far as there is room.

import { widthOf, wrapped } from './measure'

export interface Point {
  readonly x: number
  readonly y: number
}

export interface Box extends Point {
  readonly width: number
  readonly height: number
}

export interface Label {
  readonly lines: readonly string[]
  /** The places it may be put beside, the best first. */
  readonly anchors: readonly Point[]
  /** Whether it is left out where it would cover another. */
  readonly spare: boolean
  /** Whether it is left out where it would cover a curve. */
  readonly shy: boolean
  /** Whether it is a number in a ring, which is as wide as it is high. */
  readonly tag: boolean
}

/** Room between a label and what it stands beside, in parts of its line. */
const GAP = 0.5
/** Room that a line of a label takes, in parts of its letters. */
const ROW = 1.2
/** The width of the ring around a number, in lines. */
const RING = 1.4

export interface Placed extends Box {
  /** What it stands beside. */
  readonly anchor: Point
  /** Whether it covers neither a curve nor another label. */
  readonly clear: boolean
}

/** The labels with where each stands; the first have the first choice. */
export function placeLabels<T extends Label>(
  labels: readonly T[],
  area: Box,
  curves: readonly Point[],
  line: number,
): (T & Placed)[] {
  const placed: (T & Placed)[] = []
  for (const label of labels) {
    const lines = label.lines.flatMap(text => wrapped(text, area.width, line))
    const height = (label.tag ? RING : lines.length * ROW) * line
    const width = label.tag ? height : Math.max(...lines.map(text => widthOf(text, line)))
    let best: Placed | null = null
    let least = Infinity
    for (const [order, anchor] of label.anchors.entries()) {
      for (const [side, box] of around(anchor, width, height, line).entries()) {
        const inside = within(box, area)
        const covered = placed.reduce((sum, other) => sum + overlap(inside, other), 0)
        if (label.spare && covered > 0) continue
        const apart = Math.abs(inside.x - box.x) + Math.abs(inside.y - box.y)
        let cost = 4 * order + side + apart + 100 * covered
        // Most places are ruled out before the curves need to be looked at.
        const crossed = cost < least ? curves.filter(point => holds(inside, point)).length : 0
        if (label.shy && crossed > 0) continue
        cost += 40 * crossed
        if (cost >= least) continue
        least = cost
        best = { ...inside, anchor, clear: covered + crossed === 0 }
      }
    }
    if (best !== null) placed.push({ ...label, ...best, lines })
  }
  return placed
}

function around({ x, y }: Point, width: number, height: number, line: number): Box[] {
  const gap = GAP * line
  const above = y - height - gap
  const below = y + gap
  return [
    { x: x - width / 2, y: above, width, height },
    { x: x + gap, y: above, width, height },
    { x: x - width - gap, y: above, width, height },
    { x: x - width / 2, y: below, width, height },
    { x: x + gap, y: below, width, height },
    { x: x - width - gap, y: below, width, height },
    { x: x + gap, y: y - height / 2, width, height },
    { x: x - width - gap, y: y - height / 2, width, height },
    { x: x - width / 2, y: above - 2 * line, width, height },
    { x: x - width / 2, y: below + 2 * line, width, height },
  ]
}

function within(box: Box, area: Box): Box {
  const fit = (from: number, size: number, least: number, room: number) =>
    Math.max(least, Math.min(from, least + room - size))
  return { ...box, x: fit(box.x, box.width, area.x, area.width), y: fit(box.y, box.height, area.y, area.height) }
}

function holds(box: Box, { x, y }: Point): boolean {
  return x > box.x && x < box.x + box.width && y > box.y - 2 && y < box.y + box.height + 2
}

function overlap(a: Box, b: Box): number {
  const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x)
  const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y)
  return width > 0 && height > 0 ? width * height : 0
}
