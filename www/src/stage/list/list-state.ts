// What is looked at in the input list: the cell with the cursor, what is edited, which
// rows are chosen. It outlasts the view, so that whoever comes back is where they were.

import { getProject, type Step } from '../show/project'
import { storeOf } from '../show/store-of'
import { columnOf, type ColumnId } from './columns'

/** A column of the grid: one of the row, or one that tells or chooses. */
export type Place = ColumnId | 'chosen' | 'verdict'

export interface Cursor {
  readonly line: string
  readonly column: Place
  /** Whether the focus goes there with it. */
  readonly focus?: boolean
}

export interface ListState {
  readonly cursor: Cursor | null
  /** The text that the cell under the cursor begins with while it is edited. */
  readonly editing: string | null
  readonly chosen: ReadonlySet<string>
  /** From where rows are chosen by Shift. */
  readonly anchor: string | null
  /** Whether the row under the cursor is open. */
  readonly open: boolean
  /** Whether only rows are shown that miss something. */
  readonly missing: boolean
  /** Whether rows are chosen by a tap. */
  readonly choosing: boolean
  readonly told: Message
  /** What is to be copied by hand. */
  readonly byHand: string | null
}

/** What was done, and what of it did not work, line by line. */
export interface Message {
  readonly text: string
  readonly problems: readonly string[]
  /** The line that it is about alone, if there is one: it does not stay over another. */
  readonly line?: string
  /** The step that could be undone then: it does not stay once that is. */
  readonly after: Step | undefined
}

export const NOTHING_TOLD: Message = { text: '', problems: [], after: undefined }

const list = storeOf<ListState>(() => ({
  cursor: null,
  editing: null,
  chosen: new Set(),
  anchor: null,
  open: false,
  missing: false,
  choosing: false,
  told: NOTHING_TOLD,
  byHand: null,
}))

export const { get: getList, use: useList } = list

/** Changes what is looked at; what was told of one line alone does not stay over another. */
export function putList(change: Partial<ListState>): void {
  const { line } = list.get().told
  const leaves = line !== undefined && change.cursor !== undefined && change.cursor?.line !== line
  list.put(leaves ? { told: NOTHING_TOLD, ...change } : change)
}

export function tell(text: string, problems: readonly string[] = []): void {
  putList({ told: { text, problems, after: lastStep() }, byHand: null })
}

/** Tells what was done to one line. */
export function tellOf(line: string, text: string): void {
  putList({ told: { text, problems: [], line, after: lastStep() }, byHand: null })
}

function lastStep(): Step | undefined {
  return getProject().done.at(-1)
}

/** Puts the cursor on a cell, and the focus with it. */
export function moveTo(cursor: Cursor, change: Partial<ListState> = {}): void {
  putList({ cursor: { ...cursor, focus: true }, editing: null, anchor: null, ...change })
}

/** Begins to edit the cell under the cursor, with its own text or with what was typed. */
export function beginEdit(text: string): void {
  const { cursor } = getList()
  if (cursor === null || columnOf(cursor.column) === undefined) return
  putList({ editing: text })
}

/** Ends editing; the focus goes back to the cell. */
export function endEdit(): void {
  const { cursor } = getList()
  if (cursor !== null) moveTo(cursor)
}
