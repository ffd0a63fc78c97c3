// The columns of the input list: what a row has, and what can stand there.

import type { GearKind, InputLine, Show } from '../../../generated/contract'
import { engine } from '../../engine/engine'
import { say } from '../../base/words'
import { DEFAULTS } from '../../screen/settings'
import type { Options } from '../show/inputs'
import { emptyShow, getProject } from '../show/project'

/** A field of a row that is a text. */
export type ColumnId = Exclude<keyof InputLine, 'values' | 'id'>

/** What a cell is: a text, one of a few answers, or something else of the show by its identifier. */
type Kind =
  | { readonly is: 'text' }
  | { readonly is: 'choice'; readonly answers: readonly string[] }
  | { readonly is: 'gear'; readonly kinds: readonly GearKind[] }
  | { readonly is: 'equipment' | 'power' | 'lines' }

export interface Column {
  readonly id: ColumnId
  readonly kind: Kind
}

const TEXT: Kind = { is: 'text' }
const EQUIPMENT: Kind = { is: 'equipment' }

function gear(...kinds: readonly GearKind[]): Kind {
  return { is: 'gear', kinds }
}

/** The first of its answers stands where nothing else is chosen. */
function choice(...answers: readonly string[]): Kind {
  return { is: 'choice', answers }
}

export const COLUMNS: readonly Column[] = [
  { id: 'channel', kind: TEXT },
  { id: 'name', kind: TEXT },
  { id: 'source', kind: gear('source') },
  { id: 'lead', kind: gear('lead') },
  { id: 'di', kind: gear('di', 'isolator') },
  { id: 'thru', kind: EQUIPMENT },
  { id: 'run', kind: gear('lead') },
  { id: 'pad', kind: gear('pad') },
  { id: 'patch', kind: TEXT },
  { id: 'stage_box', kind: EQUIPMENT },
  { id: 'input', kind: gear('input') },
  { id: 'destination', kind: EQUIPMENT },
  { id: 'second', kind: EQUIPMENT },
  { id: 'split', kind: choice('none', 'direct', 'y', 'transformer') },
  { id: 'phantom_from', kind: choice('first', 'second') },
  { id: 'phantom', kind: choice('needed', 'off', 'p48', 'p24', 'p12') },
  { id: 'equipment', kind: EQUIPMENT },
  { id: 'circuit', kind: { is: 'power' } },
  { id: 'carried', kind: choice('wire', 'fibre', 'radio') },
  { id: 'pair', kind: { is: 'lines' } },
  { id: 'note', kind: TEXT },
]

const BY_ID = new Map(COLUMNS.map(column => [column.id as string, column]))

export function columnOf(id: string): Column | undefined {
  return BY_ID.get(id)
}

/** What an empty cell of a column holds. */
export function blankOf({ kind }: Column): string {
  return kind.is === 'choice' ? (kind.answers[0] ?? '') : ''
}

let heads: ReadonlyMap<string, string> | null = null

/** What a column is called: the same as at the head of a table that is written. */
export function headOf(id: string): string {
  heads ??= readHeads()
  return heads.get(id) ?? id
}

/** The head of a table without rows, in the order in which the core writes its columns. */
const WRITTEN =
  'channel name source equipment circuit lead di thru run carried pad stage_box patch input destination second split phantom_from phantom pair note id'.split(
    ' ',
  )

function readHeads(): ReadonlyMap<string, string> {
  const text = engine().stage_write_lines(emptyShow(), { separator: 'tab', settings: DEFAULTS })
  const words = text.trim().split('\t')
  return new Map(WRITTEN.map((id, place) => [id, words[place] ?? id]))
}

/** The field that the head of a pasted column names. */
export function columnNamed(head: string): string | undefined {
  const name = head.trim().toLowerCase()
  return WRITTEN.find(id => id === name || headOf(id).toLowerCase() === name)
}

/** What of the show its rows name, by identifier. */
export type Names = Pick<Show, 'gear' | 'equipment' | 'power'>

/** Channel and name of a line. */
export function titleOf({ channel, name, id }: InputLine): string {
  return [channel, name].filter(text => text !== '').join(' ') || id
}

function answerKey(column: ColumnId, answer: string): string {
  return `stage-answer-${column.replace('_', '-')}-${answer}`
}

/** The other side of a pair is looked for so many rows around. */
const NEAR = 12

/** Lines around one, and that which is its pair already; without one, all. */
function near(id: string): Options {
  const { lines } = getProject().show
  const at = lines.findIndex(line => line.id === id)
  const around = at < 0 ? lines : lines.slice(Math.max(at - NEAR, 0), at + NEAR + 1)
  const partner = lines.find(line => line.id === lines[at]?.pair && !around.includes(line))
  const others = [...around, ...(partner === undefined ? [] : [partner])].filter(line => line.id !== id)
  return others.map(line => [line.id, titleOf(line)])
}

/** The circuit of a line's equipment, which goes before its own; undefined where that is none of the equipment. */
function circuitOfEquipment({ equipment }: InputLine, names: Names): string | undefined {
  return equipment === '' ? undefined : names.equipment.find(({ id }) => id === equipment)?.circuit
}

function circuitName(circuit: string, { power }: Names): string {
  return circuit === '' ? say('stage-list-none') : power.find(({ id }) => id === circuit)?.name || circuit
}

/** Nothing to choose but the circuit of the equipment, and what is on the line instead. */
function fixedCircuit(line: InputLine, circuit: string, names: Names): Options {
  const differs = line.circuit !== '' && line.circuit !== circuit
  const told = say('stage-list-of-equipment', { circuit: circuitName(circuit, names) })
  return [
    [differs ? '' : line.circuit, told],
    ...(differs ? [[line.circuit, circuitName(line.circuit, names)] as const] : []),
  ]
}

/** What a column offers to choose from, each with its name; a text column nothing. */
export function optionsOf({ kind, id }: Column, names: Names, line = ''): Options {
  if (kind.is === 'text') return []
  if (kind.is === 'choice') return kind.answers.map(answer => [answer, say(answerKey(id, answer))])
  const named = (list: readonly { readonly id: string; readonly name: string }[]): Options =>
    list.map(({ id, name }) => [id, name || id])
  const none = ['', say('stage-list-none')] as const
  const at = id === 'circuit' ? getProject().show.lines.find(one => one.id === line) : undefined
  const fixed = at === undefined ? undefined : circuitOfEquipment(at, names)
  if (at !== undefined && fixed !== undefined) return fixedCircuit(at, fixed, names)
  if (kind.is === 'gear') return [none, ...named(names.gear.filter(one => kind.kinds.includes(one.kind)))]
  if (kind.is === 'lines') return [none, ...near(line)]
  return [none, ...named(names[kind.is])]
}

/** What a cell shows: the name of what stands there, or that itself where there is no such thing. */
export function cellText({ kind, id }: Column, line: InputLine, names: Names): string {
  const value = id === 'circuit' ? (circuitOfEquipment(line, names) ?? line.circuit) : line[id]
  if (kind.is === 'text' || value === '') return value
  if (kind.is === 'choice') return value === kind.answers[0] ? '' : say(answerKey(id, value))
  if (kind.is === 'lines') return partnerOf(line) ?? value
  return (names[kind.is] as readonly { id: string; name: string }[]).find(one => one.id === value)?.name || value
}

/** What the other side of a pair is called. */
export function partnerOf({ pair }: InputLine): string | undefined {
  if (pair === '') return undefined
  const other = getProject().show.lines.find(({ id }) => id === pair)
  return other === undefined ? undefined : titleOf(other)
}

/** What a text stands for in a column: itself, or what is called so; null where it is none of the answers. */
export function read(column: Column, text: string, names: Names): string | null {
  const { kind } = column
  const cell = text.trim()
  if (kind.is === 'text') return cell
  if (cell === '') return blankOf(column)
  const options = optionsOf(column, names)
  const same = (one: string) => one.toLowerCase() === cell.toLowerCase()
  const known =
    options.find(([id]) => id === cell) ?? options.find(([id, name]) => id !== '' && (same(name) || same(id)))
  // What is not there is kept, and told of.
  return known?.[0] ?? (kind.is === 'choice' ? null : cell)
}
