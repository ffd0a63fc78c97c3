import { useCallback, useMemo, useRef, useState } from 'preact/hooks'
import { say } from '../../base/words'
import { Cautions } from '../../base/warnings'
import { DoneLine, useDone } from '../show/done'
import { edit, freeId, useProject } from '../show/project'
import { useMedia } from '../../base/use-media'
import { blankRow, columnsOf, type Column, type ListName, type PowerRow } from './lists'
import { NearRows } from './near-rows'
import { Row } from './row'

/** From here on rows stand as in a table. */
const WIDE = '(min-width: 82rem)'

/** Circuits, what stands on them, and what joins it besides the input list. */
export function PowerView() {
  return (
    <section class="power">
      <h2>{say('stage-view-power')}</h2>
      <Cautions texts={[say('stage-caution-earth')]} />
      <List list="power" />
      <List list="equipment" />
      <List list="links" />
    </section>
  )
}

function List({ list }: { readonly list: ListName }) {
  const rows: readonly PowerRow[] = useProject(({ show }) => show[list])
  const [done, note] = useDone()
  const wide = useMedia(WIDE)
  const heading = useRef<HTMLHeadingElement>(null)
  const opened = useRef(new Set<string>()).current
  const columns = useMemo(() => columnsOf(list), [list])
  const [fresh, setFresh] = useState<string | null>(null)
  const told = useCallback(
    (text: string, id: string | null) => {
      note(text)
      setFresh(id)
      // What had the focus is gone.
      if (id === null) heading.current?.focus()
    },
    [note],
  )
  const add = () => {
    const name = free(say(`stage-new-${list}`), rows)
    const row = blankRow(list, freeId(rows, name), name)
    edit(say('stage-added', { name }), draft => void (draft[list] as PowerRow[]).push(row))
    told(say('stage-added', { name }), row.id)
  }
  return (
    <section class="power-list" data-list={list} data-wide={wide} aria-labelledby={`list-${list}`}>
      <h3 id={`list-${list}`} tabIndex={-1} ref={heading}>
        {say(`stage-list-${list}`)}
      </h3>
      <p class="hint">{say(`stage-hint-${list}`)}</p>
      {list === 'power' && <Cautions texts={[say('stage-caution-measure')]} />}
      {rows.length === 0 && <p>{say(`stage-no-${list}`)}</p>}
      {wide && rows.length > 0 && <Head columns={columns} />}
      <NearRows
        rows={rows}
        wanted={rows.findIndex(({ id }) => id === fresh)}
        draw={(row, place) => (
          <Row
            key={row.id}
            list={list}
            row={row}
            place={place}
            count={rows.length}
            columns={columns}
            wide={wide}
            opened={opened}
            fresh={row.id === fresh}
            onDone={told}
          />
        )}
      />
      <div class="tools">
        <button type="button" class="chip" onClick={add}>
          {say(`stage-add-${list}`)}
        </button>
      </div>
      <DoneLine done={done} />
    </section>
  )
}

function Head({ columns }: { readonly columns: readonly Column[] }) {
  return (
    <div class="power-row power-head" aria-hidden="true">
      {columns.map(({ key, label }) => (
        <span key={key}>{label}</span>
      ))}
    </div>
  )
}

/** A name that no other row has. */
function free(name: string, rows: readonly PowerRow[]): string {
  const taken = rows.map(({ name }) => name)
  for (let count = 2, tried = name; ; tried = `${name} ${count++}`) if (!taken.includes(tried)) return tried
}
