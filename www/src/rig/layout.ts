// Where the parts of a rig stand in its picture: from left to right where there is
// room, else from top to bottom.

import type { Diagram, EarthLoop, Part } from '../../generated/contract'
import type { Box, Point } from '../plot/labels'

/** Mean width of a letter, and of a bold one, in parts of the letters' size. */
const LETTER = 0.56
const BOLD = 0.66
/** From one line of text to the next, in the same. */
const LEADING = 1.3
/** A column has room for so many letters. */
const ACROSS = 17
/** Half the size of a symbol. */
export const HALF = 22
/** Between a symbol and a text. */
const GAP = 10
/** The ring of a protective earth. */
export const RING = 11
/** Between the ways of two loops that run beside each other. */
const LANE = 24
/** Half of the gap in one that is open. */
const OPEN = 9

export interface Line extends Point {
  readonly text: string
  readonly bold: boolean
}

export interface PlacedPart extends Point {
  readonly part: Part
  readonly lines: readonly Line[]
  /** What is tapped for it. */
  readonly cell: Box
  /** Where its earth is, and the way there. */
  readonly earth: (Point & { readonly lead: string }) | null
}

export interface PlacedLoop {
  readonly earthLoop: EarthLoop
  /** The shields and leads to earth, and the way through the earth itself. */
  readonly shields: string
  readonly ground: string
  /** What drives it. */
  readonly drive: Point
  /** Where it is open. */
  readonly gap: Point | null
  readonly lines: readonly Line[]
  readonly cell: Box
}

export interface Layout {
  readonly width: number
  readonly height: number
  /** Whether the signal goes down. */
  readonly down: boolean
  readonly wires: readonly string[]
  /** Where a branch leaves the line. */
  readonly joints: readonly Point[]
  readonly parts: readonly PlacedPart[]
  readonly loops: readonly PlacedLoop[]
  readonly letters: number
  readonly anchor: 'middle' | 'start'
}

/** The picture on this width, in letters of this size, with `touch` for a finger at the least; pixels. */
export function layOut(diagram: Diagram, width: number, letters: number, touch: number): Layout {
  const columns = diagram.parts.filter(({ branch }) => !branch).length
  return width / columns >= ACROSS * LETTER * letters
    ? across(diagram, width, letters, touch)
    : down(diagram, width, letters, touch)
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

/** So much or a pixel more, so that its middle is a whole one. */
function even(size: number): number {
  return 2 * Math.ceil(size / 2)
}

/** Several values in a line where they have room. */
function packed(values: readonly string[], room: number): string[] {
  const lines: string[] = []
  for (const value of values) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + value.length + 3 <= room) lines[lines.length - 1] = `${last} · ${value}`
    else lines.push(...wrapped(value, room))
  }
  return lines
}

/** Texts one under the other, the middle of the first at `y`. */
function stacked(x: number, y: number, name: readonly string[], rest: readonly string[], letters: number): Line[] {
  return [...name.map(text => ({ text, bold: true })), ...rest.map(text => ({ text, bold: false }))].map(
    (line, index) => ({ ...line, x, y: y + index * Math.round(LEADING * letters) }),
  )
}

function rooms(room: number, letters: number): [bold: number, plain: number] {
  return [Math.floor(room / (BOLD * letters)), Math.floor(room / (LETTER * letters))]
}

/** The part of the line before which each branch leaves it. */
function followers(parts: readonly Part[]): Map<string, string> {
  return new Map(
    parts.flatMap(({ id, branch }, index) => {
      const next = parts.slice(index).find(({ branch }) => !branch)
      return branch && next !== undefined ? [[id, next.id] as const] : []
    }),
  )
}

/** What the picture from left to right is measured by. */
interface Frame {
  readonly width: number
  readonly letters: number
  readonly touch: number
  /** From one line of text to the next. */
  readonly row: number
  readonly main: readonly Part[]
  readonly column: number
  /** Where the signal runs, and the shields under it. */
  readonly line: number
  readonly shield: number
}

function across({ parts, loops }: Diagram, width: number, letters: number, touch: number): Layout {
  const row = Math.round(LEADING * letters)
  const main = parts.filter(({ branch }) => !branch)
  const column = width / main.length
  const [bold, plain] = rooms(column - 6, letters)
  const texts = main.map(({ name, values }) => ({
    name: wrapped(name, bold),
    rest: values.flatMap(value => wrapped(value, plain)),
  }))
  const tallest = Math.max(...texts.map(({ name, rest }) => name.length + rest.length))
  const top = Math.round(0.8 * letters)
  const line = top + tallest * row + HALF
  const frame = { width, letters, touch, row, main, column, line, shield: line + HALF + 8 }
  const middle = (index: number) => Math.round((index + 0.5) * column)
  const { hung, bottom } = hungUnder(frame, parts, loops.length)
  const earthed = parts.some(({ earth }) => earth !== null)
  const rail = bottom + 10 + RING
  const lanes = Math.max(loops.length - 1, 0) * LANE
  const put = (part: Part, at: Point, lines: readonly Line[], cell: Box): PlacedPart => ({
    part,
    ...at,
    lines,
    cell,
    earth: part.earth === null ? null : { x: at.x, y: rail, lead: `M${at.x} ${at.y + HALF}V${rail - RING}` },
  })
  const placed = [
    ...main.map((part, index) => {
      const { name, rest } = texts[index] ?? { name: [], rest: [] }
      const x = middle(index)
      const cell = { x: index * column, y: 0, width: column, height: line + HALF + 4 }
      return put(part, { x, y: line }, stacked(x, top, name, rest, letters), cell)
    }),
    ...hung.map(({ part, x, y, lines }) => {
      const cell = { x: x - HALF - 4, y: y - HALF - 4, width: width - column - x, height: 2 * HALF + 8 }
      return put(part, { x, y }, lines, cell)
    }),
  ]
  const below = loopsAcross(frame, loops, placed, { rail, y: earthed ? rail + RING + lanes + 6 : bottom })
  return {
    width,
    down: false,
    wires: [`M${middle(0)} ${line}H${middle(main.length - 1)}`, ...hung.map(({ wire }) => wire)],
    joints: hung.map(({ joint }) => joint),
    letters,
    anchor: 'middle',
    parts: placed,
    loops: below.placed,
    height: Math.ceil(below.y + 4),
  }
}

/** The branches under the line, one below the other, and where they end. */
function hungUnder(frame: Frame, parts: readonly Part[], loops: number) {
  const { width, letters, row, main, column, line, shield } = frame
  const next = followers(parts)
  let bottom = loops > 0 ? shield + 6 : line + HALF + 4
  const hung = parts
    .filter(({ branch }) => branch)
    .map(part => {
      const at = Math.round(main.findIndex(({ id }) => id === next.get(part.id)) * column)
      const symbol = at + HALF + 22
      const left = symbol + HALF + GAP
      const [bold, plain] = rooms(width - column / 2 - 16 - 10 * loops - left, letters)
      const name = wrapped(part.name, bold)
      const rest = packed(part.values, plain)
      const tall = even(Math.max((name.length + rest.length) * row, 2 * HALF + 4))
      const y = bottom + 10 + tall / 2
      bottom = y + tall / 2
      return {
        part,
        x: symbol,
        y,
        wire: `M${at} ${line}V${y}H${symbol}`,
        joint: { x: at, y: line },
        lines: stacked(left, y - ((name.length + rest.length - 1) / 2) * row, name, rest, letters),
      }
    })
  return { hung, bottom }
}

function ends({ from, to, open_at }: EarthLoop, placed: readonly PlacedPart[]) {
  return [from, to, open_at].map(id => placed.find(({ part }) => part.id === id))
}

/** The loops through the earth on the rail, their texts from `y` on; and where those end. */
function loopsAcross(
  { width, letters, touch, row, shield }: Frame,
  loops: readonly EarthLoop[],
  parts: readonly PlacedPart[],
  { rail, y }: { readonly rail: number; readonly y: number },
) {
  let below = y
  const placed = loops.map((earthLoop, index): PlacedLoop => {
    const ground = rail + index * LANE
    const side = shield + 3 * index
    const [from, to, open] = ends(earthLoop, parts)
    // Each end goes up from the ground to its part, and from there to the shields.
    const leg = (end: PlacedPart | undefined): [x: number, path: string] => {
      if (end === undefined) return [0, '']
      if (!end.part.branch) return [end.x, `M${end.x} ${ground}V${side}`]
      const along = end.x - HALF - 14
      return [along, `M${end.x} ${ground}V${end.y + HALF}M${end.x - HALF} ${end.y - 8}H${along}V${side}`]
    }
    const [[start, up], [end, on]] = [leg(from), leg(to)]
    const over = open === undefined ? `H${end}` : `H${open.x - OPEN}M${open.x + OPEN} ${side}H${end}`
    const left = Math.max((from?.x ?? 0) - RING, 4)
    const [, plain] = rooms(width - left - 4, letters)
    const text = earthLoop.text === '' ? [] : wrapped(earthLoop.text, plain)
    const cell = { x: 0, y: below, width, height: text.length === 0 ? 0 : Math.max(text.length * row + 8, touch) }
    below += cell.height
    return {
      earthLoop,
      shields: `${up}${on}M${start} ${side}${over}`,
      ground: `M${from?.x ?? 0} ${ground}H${to?.x ?? width}`,
      drive: { x: Math.round(((from?.x ?? 0) + (to?.x ?? width)) / 2), y: ground },
      gap: open === undefined ? null : { x: open.x, y: side },
      lines: stacked(left, cell.y + cell.height / 2 - ((text.length - 1) / 2) * row, [], text, letters),
      cell,
    }
  })
  return { placed, y: below }
}

/** Where the signal runs down, the earth beside it, and how the texts are set. */
interface Column {
  readonly width: number
  readonly letters: number
  readonly touch: number
  readonly row: number
  readonly rail: number
  readonly line: number
}

function down({ parts, loops }: Diagram, width: number, letters: number, touch: number): Layout {
  const earthed = parts.some(({ earth }) => earth !== null)
  const rail = 4 + RING + Math.max(loops.length - 1, 0) * LANE
  const line = earthed ? rail + RING + 18 + HALF : HALF + 6
  const column = { width, letters, touch, row: Math.round(LEADING * letters), rail, line }
  const next = followers(parts)
  let y = 2
  const placed = parts.map(part => {
    const one = placedDown(column, part, y)
    y += one.cell.height
    return one
  })
  const main = placed.filter(({ part }) => !next.has(part.id))
  const branches = placed.filter(({ part }) => part.branch)
  const below = loopsDown(column, loops, placed, y)
  return {
    width,
    down: true,
    wires: [`M${line} ${main[0]?.y ?? 0}V${main.at(-1)?.y ?? 0}`, ...branches.map(({ x, y }) => `M${line} ${y}H${x}`)],
    joints: branches.map(({ y }) => ({ x: line, y })),
    letters,
    anchor: 'start',
    parts: placed,
    loops: below.placed,
    height: Math.ceil(below.y + 4),
  }
}

function placedDown({ width, letters, touch, row, rail, line }: Column, part: Part, y: number): PlacedPart {
  const x = part.branch ? line + 2 * HALF + 12 : line
  const left = x + HALF + GAP
  const [bold, plain] = rooms(width - left - 2, letters)
  const name = wrapped(part.name, bold)
  const rest = packed(part.values, plain)
  const count = name.length + rest.length
  const tall = even(Math.max(count * row + 12, 2 * HALF + 8, touch))
  const middle = y + tall / 2
  const earth = part.branch
    ? { x: rail, y: middle + HALF + 2, lead: `M${x} ${middle + HALF}v2H${rail + RING}` }
    : { x: rail, y: middle, lead: `M${x - HALF} ${middle}H${rail + RING}` }
  return {
    part,
    x,
    y: middle,
    lines: stacked(left, middle - ((count - 1) / 2) * row, name, rest, letters),
    cell: { x: 0, y, width, height: tall },
    earth: part.earth === null ? null : earth,
  }
}

/** The loops through the earth beside the line, their texts from `y` on; and where those end. */
function loopsDown(
  { width, letters, touch, row, rail, line }: Column,
  loops: readonly EarthLoop[],
  parts: readonly PlacedPart[],
  y: number,
) {
  let below = y
  const placed = loops.map((earthLoop, index): PlacedLoop => {
    const ground = rail - index * LANE
    const side = line - HALF - 8 - 3 * index
    const [from, to, open] = ends(earthLoop, parts)
    const [start, end] = [from?.earth?.y ?? 0, to?.earth?.y ?? 0]
    // The lead of a branch to the earth crosses the line of the signal.
    const leg = (end: PlacedPart | undefined): [y: number, path: string] => {
      if (end === undefined) return [0, '']
      if (!end.part.branch) return [end.y, `M${ground} ${end.y}H${side}`]
      return [
        end.y - 8,
        `M${ground} ${end.earth?.y ?? end.y}H${end.x}V${end.y + HALF}M${end.x - HALF} ${end.y - 8}H${side}`,
      ]
    }
    const [[above, up], [last, on]] = [leg(from), leg(to)]
    const over = open === undefined ? `V${last}` : `V${open.y - OPEN}M${side} ${open.y + OPEN}V${last}`
    const text = earthLoop.text === '' ? [] : wrapped(earthLoop.text, rooms(width - 8, letters)[1])
    const cell = { x: 0, y: below, width, height: text.length === 0 ? 0 : Math.max(text.length * row + 12, touch) }
    below += cell.height
    return {
      earthLoop,
      shields: `${up}${on}M${side} ${above}${over}`,
      ground: `M${ground} ${start}V${end}`,
      drive: { x: ground, y: Math.round((start + end) / 2) },
      gap: open === undefined ? null : { x: side, y: open.y },
      lines: stacked(4, cell.y + cell.height / 2 - ((text.length - 1) / 2) * row, [], text, letters),
      cell,
    }
  })
  return { placed, y: below }
}
