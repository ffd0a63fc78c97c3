// The keys of the grid, after the W3C's pattern for grids.

import { say } from '../../base/words'
import { columnOf } from './columns'
import { clearCells, fillDown, lineOf, moveRows } from './deeds'
import { getProject } from '../show/project'
import { copyRows } from './copy-rows'
import { beginEdit, getList, moveTo, putList, tell, type Cursor, type Place } from './list-state'
import { shownIds, targets } from './rows'

/** The columns of the grid in order; `chosen` has the box by which a row is chosen. */
export const PLACES: readonly Place[] = [
  'chosen',
  'channel',
  'name',
  'verdict',
  'source',
  'lead',
  'di',
  'thru',
  'run',
  'pad',
  'patch',
  'stage_box',
  'input',
  'destination',
  'second',
  'split',
  'phantom_from',
  'phantom',
  'equipment',
  'circuit',
  'carried',
  'pair',
  'note',
]

/** So many rows are a page. */
const PAGE = 10

/** How far a key moves the cursor, across and down. */
const MOVES: Readonly<Record<string, readonly [across: number, down: number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
  PageUp: [0, -PAGE],
  PageDown: [0, PAGE],
  Home: [-Infinity, 0],
  End: [Infinity, 0],
}

/** Answers whether the key meant something here. */
export function pressed(event: KeyboardEvent): boolean {
  const { cursor } = getList()
  if (cursor === null || getList().editing !== null) return false
  const { key, shiftKey, altKey } = event
  const ctrl = event.ctrlKey || event.metaKey
  if (altKey) return !ctrl && moved(key)
  if (ctrl) return commanded(key, cursor)
  const move = MOVES[key]
  if (move !== undefined) return stepped(cursor, move, shiftKey)
  if (key === ' ') return chose(cursor.line)
  return typed(key, cursor)
}

function moved(key: string): boolean {
  const by = key === 'ArrowUp' ? -1 : key === 'ArrowDown' ? 1 : null
  if (by === null) return false
  const { cursor } = getList()
  const ids = targets()
  const there = moveRows(ids, by)
  if (cursor !== null) moveTo(cursor)
  const place = getProject().show.lines.findIndex(({ id }) => id === ids[0]) + 1
  tell(there ? say('stage-list-moved', { place: `${place}` }) : say('stage-list-at-edge'))
  return true
}

function commanded(key: string, cursor: Cursor): boolean {
  const ids = shownIds()
  const [first, last] = [ids[0] ?? cursor.line, ids.at(-1) ?? cursor.line]
  switch (key.toLowerCase()) {
    case 'home':
      moveTo({ line: first, column: PLACES[0] ?? 'channel' })
      return true
    case 'end':
      moveTo({ line: last, column: PLACES.at(-1) ?? 'note' })
      return true
    case 'a':
      putList({ chosen: new Set(ids) })
      tell(say('stage-list-chosen', { count: `${ids.length}` }))
      return true
    case 'c':
      void copyRows(targets())
      return true
    case 'd':
      filled(cursor)
      return true
    default:
      return false
  }
}

function filled({ line, column }: Cursor): void {
  const known = columnOf(column)
  const { lines } = getProject().show
  const place = lines.findIndex(({ id }) => id === line)
  const above = lines[place - 1]?.id
  // Of one row, what stands above it.
  const ids = getList().chosen.size > 1 ? targets() : above === undefined ? [] : [above, line]
  if (known === undefined || ids.length < 2) return
  fillDown(ids, known.id)
  tell(say('stage-list-filled', { count: `${ids.length - 1}` }))
}

function stepped(cursor: Cursor, [across, down]: readonly [number, number], isChoosing: boolean): boolean {
  const ids = shownIds()
  const within = (place: number, most: number) => Math.min(Math.max(place, 0), most)
  const row = within(ids.indexOf(cursor.line) + down, ids.length - 1)
  const column = within(PLACES.indexOf(cursor.column) + across, PLACES.length - 1)
  const next = { line: ids[row] ?? cursor.line, column: PLACES[column] ?? cursor.column }
  if (isChoosing && down !== 0) chooseTo(ids, getList().anchor ?? cursor.line, next)
  else moveTo(next)
  return true
}

function chooseTo(ids: readonly string[], anchor: string, next: Cursor): void {
  const ends = [ids.indexOf(anchor), ids.indexOf(next.line)].sort((a, b) => a - b)
  const chosen = new Set(ids.slice(ends[0], (ends[1] ?? 0) + 1))
  moveTo(next, { chosen, anchor })
  tell(say('stage-list-chosen', { count: `${chosen.size}` }))
}

/** Chooses a row, or no longer. */
export function chose(id: string): true {
  const chosen = new Set(getList().chosen)
  if (!chosen.delete(id)) chosen.add(id)
  putList({ chosen })
  tell(say('stage-list-chosen', { count: `${chosen.size}` }))
  return true
}

function typed(key: string, cursor: Cursor): boolean {
  const column = columnOf(cursor.column)
  if (key === 'Enter' || key === 'F2') {
    if (cursor.column === 'chosen') return chose(cursor.line)
    if (column === undefined) putList({ open: true })
    else beginEdit(lineOf(getProject().show, cursor.line)?.[column.id] ?? '')
    return true
  }
  if (key === 'Escape') {
    const { chosen } = getList()
    if (chosen.size > 0) putList({ chosen: new Set(), anchor: null })
    return chosen.size > 0
  }
  if (column === undefined) return false
  if (key === 'Delete' || key === 'Backspace') {
    clearCells(targets(), column)
    return true
  }
  if ([...key].length !== 1) return false
  beginEdit(key)
  return true
}
