import { useEffect, useId, useRef, useState } from 'preact/hooks'
import type { Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { SelectInput, TextInput, useFlaw } from '../show/inputs'
import { edit, freeId, getProject, useProject } from '../show/project'
import { QuantityInput } from '../show/quantity-input'
import { RowTools } from '../show/row-tools'
import { forReader, useEchoes } from '../show/values'
import { usersOf, type Column, type ListName, type PowerRow } from './lists'

/** From this voltage between earths on, something is broken, V. */
const STOP = 50

interface Properties {
  readonly list: ListName
  readonly row: PowerRow
  readonly place: number
  readonly columns: readonly Column[]
  readonly wide: boolean
  /** Whether it has just come, and waits for its name. */
  readonly fresh: boolean
  /** Says what was done, and which row has the focus then. */
  readonly onDone: (text: string, id: string | null) => void
}

/** A row: across the page where there is room, else a card that unfolds. */
export function Row(properties: Properties) {
  const { row, wide, fresh } = properties
  const [open, setOpen] = useState(fresh)
  const item = useRef<HTMLLIElement>(null)
  const id = useId()
  useEffect(() => {
    const input = fresh ? item.current?.querySelector('input') : null
    input?.focus()
    input?.select()
  }, [fresh])
  const name = row.name === '' ? row.id : row.name
  return (
    <li ref={item} data-row={row.id} aria-labelledby={id}>
      {wide ? (
        <>
          <span id={id} class="unseen">
            {name}
          </span>
          <Inputs {...properties} />
        </>
      ) : (
        <details open={open} onToggle={event => setOpen(event.currentTarget.open)}>
          <summary>
            <bdi id={id}>{name}</bdi>
            <Short {...properties} />
          </summary>
          {open && <Inputs {...properties} />}
        </details>
      )}
      {'difference' in row && <Stop difference={row.difference} place={properties.place} />}
    </li>
  )
}

/** What stands in the row, in one line, as the reader reads it. */
function Short({ row, columns }: Properties) {
  const show = useProject(({ show }) => show)
  const settings = useStore(state => state.settings)
  const texts = columns.slice(1, -1).flatMap(({ key, label, quantity, options }) => {
    const text = textIn(row, key)
    if (text === '') return []
    if (quantity !== undefined) return [`${label} ${forReader({ [quantity]: text }, settings)[quantity] ?? text}`]
    return [options?.(show).find(([id]) => id === text)?.[1] ?? text]
  })
  return <span class="hint">{texts.join(', ')}</span>
}

/** More than leads are to blame for so much. */
function Stop({ difference, place }: { readonly difference: string; readonly place: number }) {
  // Which of the two is above makes no difference.
  const size = difference.replace(/^\s*[-−]/, '')
  const echo = useEchoes({ source: 'output', power: 'earthed', difference: size })?.['difference']
  const unread = useFlaw({ list: 'power', place, field: 'difference' }) !== null
  const solving = useProject(project => project.solving)
  // What is understood and still refused is more than any earths should differ.
  const refused = Boolean(echo?.problem) && !unread && !solving
  if (size === '' || ((echo?.value ?? 0) < STOP && !refused)) return null
  return (
    <div class="cautions" role="alert">
      <p class="mind" data-caution>
        <strong>{say('caution')}</strong> {say('stage-caution-stop')}
      </p>
    </div>
  )
}

function Inputs({ list, row, place, columns, onDone }: Properties) {
  const name = row.name === '' ? row.id : row.name
  const duplicate = () => {
    const rows: readonly PowerRow[] = getProject().show[list]
    const copy = { ...row, id: freeId(rows, row.name), name: say('stage-copy-of', { name }) }
    const what = say('stage-duplicated', { name })
    edit(what, draft => void (draft[list] as PowerRow[]).splice(place + 1, 0, copy))
    onDone(what, copy.id)
  }
  const remove = () => {
    const what = say('stage-row-deleted', { name })
    edit(what, draft => void draft[list].splice(place, 1))
    onDone(what, null)
  }
  return (
    <div class="power-row">
      {columns.map(column => (
        <Cell key={column.key} list={list} row={row} place={place} column={column} />
      ))}
      <RowTools
        name={name}
        users={() => usersOf(getProject().show, list, row.id)}
        onDuplicate={duplicate}
        onDelete={remove}
      />
    </div>
  )
}

interface CellProperties extends Pick<Properties, 'list' | 'row' | 'place'> {
  readonly column: Column
}

function Cell({ list, row, place, column: { key, label, quantity, options, hint } }: CellProperties) {
  const show = useProject(({ show }) => show)
  const value = textIn(row, key)
  const where = { list, place, field: key }
  const put = (text: string) =>
    edit(
      say('stage-row-changed', { name: row.name === '' ? row.id : row.name }),
      draft => set(draft, list, row.id, key, text),
      options === undefined ? `${list} ${row.id} ${key}` : null,
    )
  if (options !== undefined) {
    return <SelectInput label={label} value={value} options={options(show)} where={where} onChoice={put} />
  }
  if (quantity === undefined) return <TextInput label={label} value={value} where={where} onText={put} />
  return (
    <QuantityInput
      label={label}
      field={quantity}
      texts={{ [quantity]: value }}
      hint={hint}
      where={where}
      onText={put}
    />
  )
}

function textIn(row: PowerRow, key: string): string {
  return (row as unknown as Readonly<Record<string, string | undefined>>)[key] ?? ''
}

function set(show: Show, list: ListName, id: string, key: string, text: string): void {
  const row = (show[list] as PowerRow[]).find(row => row.id === id)
  if (row !== undefined) Object.assign(row, { [key]: text })
}
