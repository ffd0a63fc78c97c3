import { useEffect, useId, useRef, useState } from 'preact/hooks'
import type { Echo, Show } from '../../../generated/contract'
import { memo } from '../../base/memo'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { SelectInput, TextInput, useFlaw } from '../show/inputs'
import { edit, freeId, getProject, useProject } from '../show/project'
import { isBare, QuantityInput } from '../show/quantity-input'
import { RowTools } from '../show/row-tools'
import { forReader, useEchoes, type Texts } from '../show/values'
import { ASKED_BY, usersOf, type Column, type ListName, type PowerRow } from './lists'

/** From this voltage between earths on, something is broken, V. */
const STOP = 50

interface Properties {
  readonly list: ListName
  readonly row: PowerRow
  readonly place: number
  /** How many rows the list has. */
  readonly count: number
  readonly columns: readonly Column[]
  readonly wide: boolean
  /** The cards that are unfolded, also while they are not drawn. */
  readonly opened: Set<string>
  /** Whether it has just come, and waits for its name. */
  readonly fresh: boolean
  /** Says what was done, and which row has the focus then. */
  readonly onDone: (text: string, id: string | null) => void
}

/** A row: across the page where there is room, else a card that unfolds. */
export const Row = memo(function Row(properties: Properties) {
  const { row, place, count, wide, opened, fresh } = properties
  const [open, setOpen] = useState(fresh || opened.has(row.id))
  const item = useRef<HTMLDivElement>(null)
  const id = useId()
  useEffect(() => {
    const input = fresh ? item.current?.querySelector('input') : null
    input?.focus()
    input?.select()
  }, [fresh])
  const toggled = (open: boolean) => {
    setOpen(open)
    if (open) opened.add(row.id)
    else opened.delete(row.id)
  }
  const name = row.name === '' ? row.id : row.name
  return (
    <div
      ref={item}
      role="listitem"
      class="power-item"
      data-row={row.id}
      aria-labelledby={id}
      aria-posinset={place + 1}
      aria-setsize={count}
    >
      {wide ? (
        <>
          <span id={id} class="unseen">
            {name}
          </span>
          <Inputs {...properties} />
        </>
      ) : (
        <details open={open} onToggle={event => toggled(event.currentTarget.open)}>
          <summary>
            <bdi id={id}>{name}</bdi>
            <Short {...properties} />
          </summary>
          {open && <Inputs {...properties} />}
        </details>
      )}
      {'difference' in row && <Stop difference={row.difference} place={place} />}
    </div>
  )
})

/** What stands in the row, in one line, as the reader reads it. */
function Short({ row, columns }: Properties) {
  const settings = useStore(state => state.settings)
  const text = useProject(({ show }) =>
    columns
      .slice(1, -1)
      .flatMap(({ key, label, quantity, options }) => {
        const text = textIn(row, key)
        if (text === '') return []
        if (quantity !== undefined)
          return [`${label} ${forReader({ [quantity.field]: text }, settings)[quantity.field] ?? text}`]
        const chosen = options?.(show).find(([id]) => id === text)?.[1] ?? text
        return [key === 'ends' ? `${label}: ${chosen}` : chosen]
      })
      .join(', '),
  )
  return <span class="hint">{text}</span>
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
  const echoes = useEchoes(quantitiesOf(list, row, columns))
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
        <Cell
          key={column.key}
          list={list}
          row={row}
          place={place}
          column={column}
          echo={column.quantity === undefined ? undefined : echoes?.[column.quantity.field]}
        />
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

/** What is asked of the whole line about the quantities of a row; nothing where it has none. */
function quantitiesOf(list: ListName, row: PowerRow, columns: readonly Column[]): Texts | null {
  const texts = columns.flatMap(({ key, quantity }) => {
    const text = textIn(row, key)
    if (quantity === undefined || text === '') return []
    return [[quantity.field, isBare(text) ? `${text} ${quantity.bare.unit}` : text] as const]
  })
  return texts.length === 0 ? null : { ...ASKED_BY[list], ...Object.fromEntries(texts) }
}

interface CellProperties extends Pick<Properties, 'list' | 'row' | 'place'> {
  readonly column: Column
  readonly echo: Echo | undefined
}

function Cell({ list, row, place, column: { key, label, quantity, options, hint }, echo }: CellProperties) {
  const choices = useProject(({ show }) => options?.(show))
  const value = textIn(row, key)
  const where = { list, place, field: key }
  const put = (text: string) =>
    edit(
      say('stage-row-changed', { name: row.name === '' ? row.id : row.name }),
      draft => set(draft, { list, place, id: row.id }, key, text),
      options === undefined ? `${list} ${row.id} ${key}` : null,
    )
  if (choices !== undefined) {
    return <SelectInput label={label} value={value} options={choices} where={where} onChoice={put} />
  }
  if (quantity === undefined) return <TextInput label={label} value={value} where={where} onText={put} />
  const { field, bare } = quantity
  return (
    <QuantityInput
      label={label}
      field={field}
      texts={{ [field]: value }}
      echo={echo}
      bare={bare}
      hint={hint}
      where={where}
      onText={put}
    />
  )
}

function textIn(row: PowerRow, key: string): string {
  return (row as unknown as Readonly<Record<string, string | undefined>>)[key] ?? ''
}

interface Target {
  readonly list: ListName
  readonly place: number
  readonly id: string
}

function set(show: Show, { list, place, id }: Target, key: string, text: string): void {
  const rows = show[list] as PowerRow[]
  // It may have moved since it was drawn; looking at every row of a draft is slow.
  const row = rows[place]?.id === id ? rows[place] : rows.find(row => row.id === id)
  if (row !== undefined) Object.assign(row, { [key]: text })
}
