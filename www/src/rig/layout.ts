// Where the parts of a rig stand in its picture: from left to right where there is
// room, else from top to bottom.

import type { Diagram, EarthLoop, Part } from '../../generated/contract'

/** Mean width of a letter, and of a bold one, in parts of the letters' size. */
const LETTER = 0.56
const BOLD = 0.6
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

export interface Point {
  readonly x: number
  readonly y: number
}

export interface Box extends Point {
  readonly width: number
  readonly height: number
}

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

function across({ parts, loops }: Diagram, width: number, letters: number, touch: number): Layout {
  const row = Math.round(LEADING * letters)
  const main = parts.filter(({ branch }) => !branch)
  const branches = parts.filter(({ branch }) => branch)
  const next = followers(parts)
  const column = width / main.length
  const [bold, plain] = rooms(column - 6, letters)
  const texts = main.map(({ name, values }) => ({
    name: wrapped(name, bold),
    rest: values.flatMap(value => wrapped(value, plain)),
  }))
  const tallest = Math.max(...texts.map(({ name, rest }) => name.length + rest.length))
  const top = Math.round(0.8 * letters)
  const line = top + tallest * row + HALF
  const middle = (index: number) => Math.round((index + 0.5) * column)
  const wires = [`M${middle(0)} ${line}H${middle(main.length - 1)}`]
  const joints: Point[] = []
  const shield = line + HALF + 8
  let bottom = loops.length > 0 ? shield + 6 : line + HALF + 4

  const hung = branches.map(part => {
    const at = Math.round(main.findIndex(({ id }) => id === next.get(part.id)) * column)
    const symbol = at + HALF + 22
    const left = symbol + HALF + GAP
    const [bold, plain] = rooms(width - column / 2 - 16 - 10 * loops.length - left, letters)
    const name = wrapped(part.name, bold)
    const rest = packed(part.values, plain)
    const tall = even(Math.max((name.length + rest.length) * row, 2 * HALF + 4))
    const y = bottom + 10 + tall / 2
    wires.push(`M${at} ${line}V${y}H${symbol}`)
    joints.push({ x: at, y: line })
    bottom = y + tall / 2
    return {
      part,
      x: symbol,
      y,
      lines: stacked(left, y - ((name.length + rest.length - 1) / 2) * row, name, rest, letters),
    }
  })

  const earthed = parts.some(({ earth }) => earth !== null)
  const rail = bottom + 10 + RING
  const lanes = Math.max(loops.length - 1, 0) * LANE
  let y = earthed ? rail + RING + lanes + 6 : bottom
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
  return {
    width,
    down: false,
    wires,
    joints,
    letters,
    anchor: 'middle',
    parts: placed,
    loops: loops.map((earthLoop, index): PlacedLoop => {
      const ground = rail + index * LANE
      const side = shield + 3 * index
      const [from, to, open] = [earthLoop.from, earthLoop.to, earthLoop.open_at].map(id =>
        placed.find(({ part }) => part.id === id),
      )
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
      const cell = { x: 0, y, width, height: text.length === 0 ? 0 : Math.max(text.length * row + 8, touch) }
      y += cell.height
      return {
        earthLoop,
        shields: `${up}${on}M${start} ${side}${over}`,
        ground: `M${from?.x ?? 0} ${ground}H${to?.x ?? width}`,
        drive: { x: Math.round(((from?.x ?? 0) + (to?.x ?? width)) / 2), y: ground },
        gap: open === undefined ? null : { x: open.x, y: side },
        lines: stacked(left, cell.y + cell.height / 2 - ((text.length - 1) / 2) * row, [], text, letters),
        cell,
      }
    }),
    height: Math.ceil(y + 4),
  }
}

function down({ parts, loops }: Diagram, width: number, letters: number, touch: number): Layout {
  const row = Math.round(LEADING * letters)
  const earthed = parts.some(({ earth }) => earth !== null)
  const lanes = Math.max(loops.length - 1, 0) * LANE
  const rail = 4 + RING + lanes
  const line = earthed ? rail + RING + 18 + HALF : HALF + 6
  const next = followers(parts)
  const joints: Point[] = []
  const wires: string[] = []
  let y = 2
  const placed = parts.map((part): PlacedPart => {
    const x = part.branch ? line + 2 * HALF + 12 : line
    const left = x + HALF + GAP
    const [bold, plain] = rooms(width - left - 2, letters)
    const name = wrapped(part.name, bold)
    const rest = packed(part.values, plain)
    const count = name.length + rest.length
    const tall = even(Math.max(count * row + 12, 2 * HALF + 8, touch))
    const middle = y + tall / 2
    const cell = { x: 0, y, width, height: tall }
    y += tall
    if (part.branch) {
      joints.push({ x: line, y: middle })
      wires.push(`M${line} ${middle}H${x}`)
    }
    return {
      part,
      x,
      y: middle,
      lines: stacked(left, middle - ((count - 1) / 2) * row, name, rest, letters),
      cell,
      earth:
        part.earth === null
          ? null
          : part.branch
            ? { x: rail, y: middle + HALF + 2, lead: `M${x} ${middle + HALF}v2H${rail + RING}` }
            : { x: rail, y: middle, lead: `M${x - HALF} ${middle}H${rail + RING}` },
    }
  })
  const main = placed.filter(({ part }) => !next.has(part.id))
  wires.unshift(`M${line} ${main[0]?.y ?? 0}V${main.at(-1)?.y ?? 0}`)
  return {
    width,
    down: true,
    wires,
    joints,
    letters,
    anchor: 'start',
    parts: placed,
    loops: loops.map((earthLoop, index): PlacedLoop => {
      const ground = rail - index * LANE
      const side = line - HALF - 8 - 3 * index
      const [from, to, open] = [earthLoop.from, earthLoop.to, earthLoop.open_at].map(id =>
        placed.find(({ part }) => part.id === id),
      )
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
      const [[above, up], [below, on]] = [leg(from), leg(to)]
      const over = open === undefined ? `V${below}` : `V${open.y - OPEN}M${side} ${open.y + OPEN}V${below}`
      const text = earthLoop.text === '' ? [] : wrapped(earthLoop.text, rooms(width - 8, letters)[1])
      const cell = { x: 0, y, width, height: text.length === 0 ? 0 : Math.max(text.length * row + 12, touch) }
      y += cell.height
      return {
        earthLoop,
        shields: `${up}${on}M${side} ${above}${over}`,
        ground: `M${ground} ${start}V${end}`,
        drive: { x: ground, y: Math.round((start + end) / 2) },
        gap: open === undefined ? null : { x: side, y: open.y },
        lines: stacked(4, cell.y + cell.height / 2 - ((text.length - 1) / 2) * row, [], text, letters),
        cell,
      }
    }),
    height: Math.ceil(y + 4),
  }
}
