import type { RefObject } from 'preact'
import { useEffect, useMemo, useRef, useState } from 'preact/hooks'
import type { InputLine, Row, Told } from '../../../generated/contract'
import { say } from '../../base/words'
import { getProject, useProject } from '../show/project'
import { columnOf, headOf, partnerOf, type Names } from './columns'
import { lineOf } from './deeds'
import { GridRow } from './grid-row'
import { chose, PLACES, pressed } from './grid-keys'
import { beginEdit, getList, moveTo, putList, useList, type Cursor, type Place } from './list-state'

interface Properties {
  readonly lines: readonly InputLine[]
  readonly rows: ReadonlyMap<string, Row>
  readonly names: Names
}

/** The input list as a grid: one cell at a time can be reached by Tab, the others by arrows. */
export function Grid({ lines, rows, names }: Properties) {
  const count = useProject(({ show }) => show.lines.length)
  const [first] = lines
  const lost = useList(({ cursor }) => cursor === null || !lines.some(({ id }) => id === cursor.line))
  useEffect(() => {
    // Whoever comes back from a whole line may have put it on a row since.
    const isThere = lines.some(({ id }) => id === getList().cursor?.line)
    if (lost && !isThere && first !== undefined)
      putList({ cursor: { line: first.id, column: 'channel' }, editing: null })
  }, [lost, first, lines])
  const grid = useRef<HTMLDivElement>(null)
  const height = rowHeight()
  const [from, follow] = useWindow(grid, height)
  return (
    <div
      ref={grid}
      onScroll={follow}
      class="input-grid"
      role="grid"
      aria-label={say('stage-view-list')}
      aria-multiselectable="true"
      aria-rowcount={count + 1}
      aria-colcount={PLACES.length}
      aria-describedby="grid-keys"
      onKeyDown={event => {
        if (pressed(event)) event.preventDefault()
        // A letter that is typed on a cell is no shortcut of the page.
        if (event.key.length === 1 && !event.ctrlKey && !event.metaKey && !event.altKey) event.stopPropagation()
      }}
      onClick={clicked}
      onDblClick={event => {
        if (cellAt(event.target) !== null) editHere()
      }}
    >
      <div class="grid-row grid-head" role="row" aria-rowindex={1}>
        {PLACES.map(place => (
          <div key={place} role="columnheader" data-column={place}>
            {headOfPlace(place)}
          </div>
        ))}
      </div>
      <Rows lines={lines} rows={rows} names={names} from={from} height={height} />
    </div>
  )
}

interface RowsProperties extends Properties {
  /** The first that is drawn. */
  readonly from: number
  readonly height: number
}

function Rows({ lines, rows, names, from, height }: RowsProperties) {
  const all = useProject(({ show }) => show.lines)
  const flaws = useFlaws()
  const places = useMemo(() => new Map(all.map(({ id }, place) => [id, place])), [all])
  const cursor = useList(({ cursor }) => lines.findIndex(({ id }) => id === cursor?.line))
  return (
    <div role="rowgroup" class="grid-rows" style={{ blockSize: `${lines.length * height}px` }}>
      {indices(lines.length, from, cursor).map(index => {
        const line = lines[index]
        if (line === undefined) return null
        const number = (places.get(line.id) ?? 0) + 1
        return (
          <GridRow
            key={line.id}
            line={line}
            number={number}
            row={rows.get(line.id)}
            names={names}
            partner={partnerOf(line)}
            top={index * height}
            flaws={flaws.get(number) ?? null}
          />
        )
      })}
    </div>
  )
}

/** Lists up to this long are drawn as a whole. */
const SHORT = 60
/** Of a longer one so many rows are drawn, from one before the first that is seen, by steps. */
const DRAWN = 50
const STEP = 10

/** The height of a row in pixels, as the styles have it. */
function rowHeight(): number {
  return 2.75 * parseFloat(getComputedStyle(document.documentElement).fontSize)
}

/** The first row that is drawn, and what follows the scrolling. */
function useWindow(grid: RefObject<HTMLElement | null>, height: number): [number, () => void] {
  const [from, setFrom] = useState(0)
  const follow = () => {
    const top = Math.floor((grid.current?.scrollTop ?? 0) / height)
    setFrom(Math.max(0, STEP * Math.floor(top / STEP) - STEP))
  }
  return [from, follow]
}

/** The rows that are drawn: those in view, and the one with the cursor, which has the focus. */
function indices(count: number, from: number, cursor: number): readonly number[] {
  if (count <= SHORT) return [...Array(count).keys()]
  const first = Math.min(from, Math.max(0, count - DRAWN))
  const drawn = Array.from({ length: Math.min(DRAWN, count) }, (_, place) => first + place)
  if (cursor < 0 || drawn.includes(cursor)) return drawn
  return cursor < first ? [cursor, ...drawn] : [...drawn, cursor]
}

function headOfPlace(place: Place) {
  if (place === 'chosen') return <span class="unseen">{say('stage-list-chosen-head')}</span>
  return place === 'verdict' ? say('stage-list-verdict') : headOf(place)
}

type RowFlaws = Readonly<Record<string, string>>

/** What is wrong with rows, by their places, column by column; what stays wrong is the same object. */
function useFlaws(): ReadonlyMap<number, RowFlaws> {
  const flaws = useProject(({ flaws }) => flaws)
  const last = useRef<ReadonlyMap<number, RowFlaws>>(new Map())
  return useMemo(() => {
    last.current = flawsByRow(flaws, last.current)
    return last.current
  }, [flaws])
}

function flawsByRow(flaws: readonly Told[], last: ReadonlyMap<number, RowFlaws>): ReadonlyMap<number, RowFlaws> {
  const byRow = new Map<number, Record<string, string>>()
  for (const { list, row, field, text } of flaws) {
    if (list !== 'lines' || row === null || field === null) continue
    byRow.set(row, { [field]: text, ...byRow.get(row) })
  }
  const kept = ([row, now]: [number, RowFlaws]): [number, RowFlaws] => {
    const before = last.get(row)
    return [row, before !== undefined && JSON.stringify(before) === JSON.stringify(now) ? before : now]
  }
  return new Map([...byRow].map(kept))
}

/** The cell in which something happened. */
function cellAt(target: EventTarget | null): Cursor | null {
  const cell = target instanceof Element ? target.closest<HTMLElement>('[data-column]') : null
  const line = cell?.closest<HTMLElement>('[data-line]')?.dataset['line']
  return line === undefined ? null : { line, column: cell?.dataset['column'] as Place }
}

function clicked(event: MouseEvent): void {
  const cell = cellAt(event.target)
  if (cell === null || (event.target instanceof Element && event.target.closest('input, select') !== null)) return
  const { cursor, editing } = getList()
  const again = cursor?.line === cell.line && cursor.column === cell.column
  if (cell.column === 'chosen') {
    moveTo(cell)
    chose(cell.line)
  } else if (cell.column === 'verdict') moveTo(cell, { open: true })
  else if (!again) moveTo(cell)
  else if (editing === null && matchMedia('(pointer: coarse)').matches) editHere()
}

function editHere(): void {
  const { cursor, editing } = getList()
  const column = columnOf(cursor?.column ?? '')
  if (cursor === null || column === undefined || editing !== null) return
  beginEdit(lineOf(getProject().show, cursor.line)?.[column.id] ?? '')
}
