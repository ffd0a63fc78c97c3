// What comes from a spreadsheet by the clipboard: a table with a head adds rows, one
// without fills cells from the cursor on.

import type { Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { getState } from '../../screen/store'
import { edit, freeId, getProject } from '../show/project'
import { MOST_LINES } from '../packing/append'
import { COLUMNS, columnNamed, headOf, read, type Column, type Names } from './columns'
import { newLine, put } from './deeds'
import { getList, tell } from './list-state'

/** The cells of a table on the clipboard, with quotation marks as spreadsheets write them. */
export function cellsOf(text: string): string[][] {
  const rows: string[][] = [[]]
  let cell = ''
  const next = () => {
    rows.at(-1)?.push(unguarded(cell))
    cell = ''
  }
  for (const [piece] of text
    .replace(/(\r\n|\r|\n)$/, '')
    .matchAll(/(?<=^|[\t\n\r])"(?:[^"]|"")*"(?=[\t\n\r]|$)|\t|\r\n|\r|\n|[^\t\n\r]+/g)) {
    if (piece === '\t') next()
    else if (/^[\r\n]/.test(piece)) {
      next()
      rows.push([])
    } else cell = /^".*"$/s.test(piece) ? piece.slice(1, -1).replaceAll('""', '"') : piece
  }
  next()
  return rows
}

/** A cell without the apostrophe that kept a spreadsheet from computing it. */
function unguarded(cell: string): string {
  return /^'+[=+@-]/.test(cell) ? cell.slice(1) : cell
}

/** Whether the first row names columns. */
function hasHead([head = []]: readonly string[][]): boolean {
  const named = head.filter(cell => cell.trim() !== '')
  return named.length > 1 && named.filter(cell => columnNamed(cell) !== undefined).length * 2 > named.length
}

export async function paste(text: string): Promise<void> {
  if (text.trim() === '') return
  const cells = cellsOf(text)
  if (hasHead(cells)) await append(text)
  else fill(cells)
}

async function append(text: string): Promise<void> {
  const { settings } = getState()
  const { lines, flaws } = await askStage(
    'stage_read_lines',
    getProject().show,
    text,
    { separator: 'tab', settings },
    settings,
  )
  if (lines.length > 0) {
    edit(say('stage-list-did-paste', { count: `${lines.length}` }), draft => {
      const renamed = new Map<string, string>()
      for (const line of lines) {
        const id = freeId(draft.lines, line.id || 'line')
        renamed.set(line.id, id)
        draft.lines.push({ ...line, id })
      }
      // A pair among what was pasted stays one.
      for (const line of draft.lines.slice(-lines.length)) line.pair = renamed.get(line.pair) ?? ''
    })
  }
  const told = flaws.map(flaw => flaw.text)
  tell(say('stage-list-pasted-rows', { count: `${lines.length}` }), told)
}

/** The columns from the cursor on. */
function columnsFrom(column: string): readonly Column[] {
  const from = COLUMNS.findIndex(({ id }) => id === column)
  return from < 0 ? [] : COLUMNS.slice(from)
}

function fill(cells: readonly string[][]): void {
  const { cursor, chosen } = getList()
  const names = getProject().show
  const { lines } = names
  const columns = columnsFrom(lines.length === 0 ? 'channel' : (cursor?.column ?? ''))
  if (lines.length === 0 && columns.length > 0) {
    fillFrom([], cells, columns, names)
    return
  }
  if (cursor === null || columns.length === 0) {
    tell(say('stage-list-paste-where'))
    return
  }
  const [[only = ''] = []] = cells
  const isOne = cells.length === 1 && cells[0]?.length === 1
  if (isOne && chosen.size > 1 && chosen.has(cursor.line)) {
    const targets = lines.filter(({ id }) => chosen.has(id)).map(({ id }) => id)
    fillFrom(
      targets,
      targets.map(() => [only]),
      columns,
      names,
    )
    return
  }
  const at = lines.findIndex(({ id }) => id === cursor.line)
  const targets = lines.slice(at, at + cells.length).map(({ id }) => id)
  fillFrom(targets, cells, columns, names)
}

function fillFrom(targets: readonly string[], cells: readonly string[][], columns: readonly Column[], names: Names) {
  const { show } = getProject()
  const room = targets.length + Math.max(MOST_LINES - show.lines.length, 0)
  const taken = cells.slice(0, room)
  const problems: string[] = []
  if (taken.length < cells.length) {
    problems.push(say('stage-list-paste-many', { count: `${cells.length}`, most: `${MOST_LINES}` }))
  }
  let count = 0
  // Filled in a copy: of a draft every cell would be watched.
  const copy: Show = { ...show, lines: show.lines.map(line => ({ ...line })) }
  taken.forEach((texts, row) => {
    const id = targets[row] ?? newAtEnd(copy)
    texts.forEach((text, place) => {
      const column = columns[place]
      const value = column === undefined ? null : read(column, text, names)
      if (column === undefined || value === null) {
        problems.push(wrong(row + 1, column, text))
        return
      }
      put(copy, id, column.id, value)
      count++
      if (isUnknown(column, value, names)) problems.push(wrong(row + 1, column, text, 'missing'))
    })
  })
  edit(say('stage-list-did-fill-cells', { count: `${count}` }), draft => void (draft.lines = copy.lines))
  tell(say('stage-list-pasted-cells', { count: `${count}` }), problems)
}

/** What reaches beyond the list makes it longer. */
function newAtEnd({ lines }: Show): string {
  const line = newLine(lines, lines.at(-1))
  lines.push(line)
  return line.id
}

function isUnknown({ kind }: Column, value: string, names: Names): boolean {
  if (value === '' || kind.is === 'text' || kind.is === 'choice') return false
  const known = kind.is === 'lines' ? getProject().show.lines : names[kind.is]
  return !known.some(({ id }) => id === value)
}

function wrong(row: number, column: Column | undefined, text: string, why: 'answer' | 'missing' = 'answer'): string {
  const key = column === undefined ? 'stage-list-paste-column' : `stage-list-paste-${why}`
  return say(key, { row: `${row}`, column: column === undefined ? '' : headOf(column.id), text })
}
