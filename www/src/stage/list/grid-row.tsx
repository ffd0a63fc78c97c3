import { useLayoutEffect, useRef } from 'preact/hooks'
import type { InputLine, Row } from '../../../generated/contract'
import { memo } from '../../base/memo'
import { say } from '../../base/words'
import { cellText, columnOf, type Names } from './columns'
import { CellEditor } from './cell-editor'
import { PLACES } from './grid-keys'
import { useList, type Place } from './list-state'
import { Verdict } from './verdict'

interface Properties {
  readonly line: InputLine
  /** Its place in the list, from 1 on. */
  readonly number: number
  readonly row: Row | undefined
  readonly names: Names
  /** What the other side of its pair is called: another name draws it again. */
  readonly partner: string | undefined
  /** From the top of the rows, in pixels. */
  readonly top: number
  /** What is wrong with it by column; null where nothing is. */
  readonly flaws: Readonly<Record<string, string>> | null
}

/** A row of the grid, drawn again only when something of it is another. */
export const GridRow = memo(function GridRow({ line, number, row, names, flaws, top }: Properties) {
  const { id } = line
  const cursor = useList(({ cursor }) => (cursor?.line === id ? cursor : null))
  const at = cursor?.column ?? null
  const editing = useList(({ cursor, editing }) => (cursor?.line === id ? editing : null))
  const chosen = useList(({ chosen }) => chosen.has(id))
  const element = useRef<HTMLDivElement>(null)
  useLayoutEffect(() => {
    if (cursor?.focus !== true || editing !== null) return
    const cell = element.current?.querySelector<HTMLElement>(`[data-column="${cursor.column}"]`)
    cell?.focus({ preventScroll: true })
    cell?.scrollIntoView({ block: 'nearest', inline: 'nearest' })
  }, [cursor, editing])
  return (
    <div
      ref={element}
      class="grid-row"
      role="row"
      aria-rowindex={number + 1}
      aria-selected={chosen}
      data-line={id}
      data-here={at !== null}
      style={{ insetBlockStart: `${top}px` }}
    >
      {PLACES.map(place => (
        <div
          key={place}
          role={place === 'name' ? 'rowheader' : 'gridcell'}
          data-column={place}
          tabIndex={at === place ? 0 : -1}
          aria-invalid={flaws?.[place] !== undefined || undefined}
          title={flaws?.[place]}
        >
          {at === place && editing !== null ? (
            <Editor line={line} place={place} text={editing} names={names} />
          ) : (
            <Content line={line} place={place} row={row} names={names} chosen={chosen} />
          )}
          {flaws?.[place] !== undefined && <span class="unseen"> {flaws[place]}</span>}
        </div>
      ))}
    </div>
  )
})

interface CellProperties {
  readonly line: InputLine
  readonly place: Place
  readonly names: Names
}

function Editor({ line, place, text, names }: CellProperties & { readonly text: string }) {
  const column = columnOf(place)
  if (column === undefined) return null
  return <CellEditor line={line.id} column={column} value={line[column.id]} text={text} names={names} />
}

function Content({
  line,
  place,
  row,
  names,
  chosen,
}: CellProperties & { readonly row: Row | undefined; readonly chosen: boolean }) {
  if (place === 'chosen') {
    return (
      <>
        <span class="choose-box" aria-hidden="true" data-on={chosen} />
        <span class="unseen">{say('stage-list-choose')}</span>
      </>
    )
  }
  if (place === 'verdict') return <Verdict line={line} row={row} />
  const column = columnOf(place)
  return column === undefined ? null : <>{cellText(column, line, names)}</>
}
