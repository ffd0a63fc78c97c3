// What is done to rows of the input list. Each is one step to undo.

import type { InputLine, Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { edit, freeId, getProject } from '../show/project'
import { blankOf, columnOf, headOf, titleOf, type Column, type ColumnId } from './columns'

const BLANK: Omit<InputLine, 'id' | 'values'> = {
  channel: '',
  name: '',
  source: '',
  equipment: '',
  circuit: '',
  lead: '',
  di: '',
  thru: '',
  run: '',
  carried: 'wire',
  pad: '',
  stage_box: '',
  patch: '',
  input: '',
  destination: '',
  second: '',
  split: 'none',
  phantom_from: 'first',
  phantom: 'needed',
  pair: '',
  note: '',
}

export function lineOf(show: Show, id: string): InputLine | undefined {
  return show.lines.find(line => line.id === id)
}

/** The rows that a deed is for, in their order. */
function titles(ids: readonly string[]): string {
  const { show } = getProject()
  const [first] = ids
  const line = ids.length === 1 && first !== undefined ? lineOf(show, first) : undefined
  return line === undefined ? say('stage-list-rows', { count: `${ids.length}` }) : titleOf(line)
}

/** Puts a value into a column of some rows. */
export function setCells(ids: readonly string[], column: ColumnId, value: string, merge: string | null = null): void {
  const what = say('stage-list-did-set', { column: headOf(column), row: titles(ids) })
  edit(what, draft => ids.forEach(id => put(draft, id, column, value)), merge)
}

/** Puts a value into one cell of a draft; a pair holds both ways. */
export function put(draft: Show, id: string, column: ColumnId, value: string): void {
  const line = lineOf(draft, id)
  if (line === undefined) return
  if (column === 'pair') pair(draft, line, value)
  else if (line[column] !== value) Object.assign(line, { [column]: value })
}

function pair(draft: Show, line: InputLine, other: string): void {
  if (line.pair === other) return
  for (const one of draft.lines) if (one.pair === line.id || (other !== '' && one.pair === other)) one.pair = ''
  const partner = other === line.id ? undefined : lineOf(draft, other)
  if (partner !== undefined) {
    for (const one of draft.lines) if (one.pair === partner.id) one.pair = ''
    partner.pair = line.id
  }
  line.pair = other
}

export function clearCells(ids: readonly string[], column: Column): void {
  const what = say('stage-list-did-clear', { column: headOf(column.id), row: titles(ids) })
  edit(what, draft => ids.forEach(id => put(draft, id, column.id, blankOf(column))))
}

/** Columns that count on where others repeat. */
const COUNTED: readonly string[] = ['channel', 'patch']

/** The same with its last number one further, such as A10 after A9. */
export function counted(text: string): string {
  return text.replace(/\d+(?=\D*$)/, digits => `${Number(digits) + 1}`.padStart(digits.length, '0'))
}

/** Fills a column of some rows with what stands in the first of them. */
export function fillDown(ids: readonly string[], column: ColumnId): void {
  const [first, ...others] = ids
  if (first === undefined || columnOf(column) === undefined || column === 'pair') return
  edit(say('stage-list-did-fill', { column: headOf(column), row: titles(others) }), draft => {
    let value = lineOf(draft, first)?.[column] ?? ''
    for (const id of others) {
      if (COUNTED.includes(column)) value = counted(value)
      put(draft, id, column, value)
    }
  })
}

/** The channel after the highest that is a number. */
function nextChannel(lines: readonly InputLine[]): string {
  const numbers = lines.map(({ channel }) => Number(channel)).filter(Number.isInteger)
  return `${Math.max(0, ...numbers) + 1}`
}

/** A new row behind another one, which most likely goes the same way. */
export function newLine(lines: readonly InputLine[], behind: InputLine | undefined): InputLine {
  const { stage_box, input, destination, run, patch } = behind ?? BLANK
  const [id, channel] = [freeId(lines, 'line'), nextChannel(lines)]
  return { ...BLANK, id, channel, stage_box, input, destination, run, patch: counted(patch), values: {} }
}

/** Adds one; answers its identifier. */
export function addRow(after: string | null): string {
  const { lines } = getProject().show
  const at = after === null ? lines.length - 1 : lines.findIndex(({ id }) => id === after)
  const line = newLine(lines, lines[at])
  edit(say('stage-list-did-add', { row: line.channel }), draft => void draft.lines.splice(at + 1, 0, line))
  return line.id
}

/** Copies rows, each behind the last of them. Answers the identifiers of the copies. */
export function duplicateRows(ids: readonly string[]): string[] {
  const copies: string[] = []
  edit(say('stage-list-did-duplicate', { row: titles(ids) }), draft => {
    const at = Math.max(...ids.map(id => draft.lines.findIndex(line => line.id === id)))
    ids.forEach((id, place) => {
      const line = lineOf(draft, id)
      if (line === undefined) return
      const copy = copyOf(draft, line)
      copies.push(copy.id)
      draft.lines.splice(at + 1 + place, 0, copy)
    })
  })
  return copies
}

function copyOf(draft: Show, line: InputLine): InputLine {
  const id = freeId(draft.lines, 'line')
  return { ...line, values: { ...line.values }, id, channel: nextChannel(draft.lines), pair: '' }
}

/** Copies a row to be the other side of a stereo pair with it. Answers the copy's identifier. */
export function makePair(id: string): string | null {
  let made: string | null = null
  edit(say('stage-list-did-pair', { row: titles([id]) }), draft => {
    const at = draft.lines.findIndex(line => line.id === id)
    const line = draft.lines[at]
    if (line === undefined) return
    const copy = copyOf(draft, line)
    const name = line.name.replace(/ (L|left)$/i, '')
    line.name = `${name} L`.trim()
    draft.lines.splice(at + 1, 0, { ...copy, name: `${name} R`.trim(), patch: counted(line.patch) })
    put(draft, id, 'pair', copy.id)
    made = copy.id
  })
  return made
}

/** Makes two rows a stereo pair. */
export function joinPair(id: string, other: string): void {
  edit(say('stage-list-did-pair', { row: titles([id]) }), draft => put(draft, id, 'pair', other))
}

export function deleteRows(ids: readonly string[]): void {
  const gone = new Set(ids)
  edit(say('stage-list-did-delete', { row: titles(ids) }), draft => {
    draft.lines = draft.lines.filter(({ id }) => !gone.has(id))
    for (const line of draft.lines) if (gone.has(line.pair)) line.pair = ''
  })
}

/** Moves rows one up or down, together. Whether there was room. */
export function moveRows(ids: readonly string[], by: -1 | 1): boolean {
  const moved = new Set(ids)
  const { lines } = getProject().show
  const edge = by < 0 ? lines[0] : lines.at(-1)
  if (edge === undefined || moved.has(edge.id)) return false
  edit(say('stage-list-did-move', { row: titles(ids) }), ({ lines }) => {
    const order = by < 0 ? [...lines.keys()] : [...lines.keys()].reverse()
    for (const place of order) {
      const [line] = lines.slice(place, place + 1)
      if (line !== undefined && moved.has(line.id)) lines.splice(place + by, 0, ...lines.splice(place, 1))
    }
  })
  return true
}
