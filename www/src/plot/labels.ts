// Where labels stand in a plot: beside what they name, off each other and off
// the curves as far as there is room.

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
}

/** Room between a label and what it stands beside, in parts of its line. */
const GAP = 0.5
/** Mean width of a letter, in parts of the line. */
export const LETTER = 0.55

export interface Placed extends Box {
  /** What it stands beside. */
  readonly anchor: Point
}

/** The labels with where each stands; the first have the first choice. */
export function placeLabels<T extends Label>(
  labels: readonly T[],
  area: Box,
  curves: readonly Point[],
  line: number,
): (T & Placed)[] {
  const placed: (T & Placed)[] = []
  const room = area.width / (LETTER * line)
  for (const label of labels) {
    const lines = label.lines.flatMap(text => wrapped(text, room))
    const width = Math.max(...lines.map(text => text.length)) * LETTER * line
    const height = lines.length * line
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
        if (cost < least) cost += 40 * curves.filter(point => holds(inside, point)).length
        if (cost >= least) continue
        least = cost
        best = { ...inside, anchor }
      }
    }
    if (best !== null) placed.push({ ...label, ...best, lines })
  }
  return placed
}

/** A text in lines of so many letters, broken between words. */
function wrapped(text: string, room: number): string[] {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + word.length < room) lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  return lines
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
