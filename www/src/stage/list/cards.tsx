import { useEffect, useRef } from 'preact/hooks'
import type { InputLine, Row } from '../../../generated/contract'
import { memo } from '../../base/memo'
import { say } from '../../base/words'
import { cellText, columnOf, type ColumnId, type Names } from './columns'
import { chose } from './grid-keys'
import { getList, moveTo, useList } from './list-state'
import { Verdict } from './verdict'

interface Properties {
  readonly lines: readonly InputLine[]
  readonly rows: ReadonlyMap<string, Row>
  readonly names: Names
}

/** The input list where there is little room: a row is a button that opens it. */
export function Cards({ lines, rows, names }: Properties) {
  const list = useRef<HTMLOListElement>(null)
  useEffect(() => {
    // Back from a row, to where it is in the list.
    const { cursor } = getList()
    if (cursor?.focus !== true) return
    const card = list.current?.querySelector<HTMLElement>(`[data-line="${CSS.escape(cursor.line)}"] button`)
    card?.focus({ preventScroll: true })
    card?.scrollIntoView({ block: 'center' })
  }, [])
  return (
    <ol class="row-cards" ref={list}>
      {lines.map(line => (
        <Card key={line.id} line={line} row={rows.get(line.id)} names={names} />
      ))}
    </ol>
  )
}

interface CardProperties {
  readonly line: InputLine
  readonly row: Row | undefined
  readonly names: Names
}

const Card = memo(function Card({ line, row, names }: CardProperties) {
  const { id } = line
  const choosing = useList(({ choosing }) => choosing)
  const chosen = useList(({ chosen }) => chosen.has(id))
  return (
    <li data-line={id}>
      <button
        type="button"
        class="row-card"
        aria-pressed={choosing ? chosen : undefined}
        onClick={() => (choosing ? chose(id) : moveTo({ line: id, column: 'name' }, { open: true }))}
      >
        {choosing && <span class="choose-box" aria-hidden="true" data-on={chosen} />}
        <span class="row-channel">{line.channel || '–'}</span>
        <span class="row-name">
          <b>{line.name || say('stage-list-unnamed')}</b>
          <span class="row-way">{wayOf(line, names)}</span>
          <Verdict line={line} row={row} />
        </span>
      </button>
    </li>
  )
})

/** What the line goes through. */
function wayOf(line: InputLine, names: Names): string {
  const text = (id: ColumnId) => {
    const column = columnOf(id)
    return column === undefined ? '' : cellText(column, line, names)
  }
  const end = [text('stage_box'), line.patch].filter(Boolean).join(' ')
  return [text('source'), text('di'), text('pad'), end].filter(Boolean).join(' → ')
}
