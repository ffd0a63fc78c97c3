import { useEffect, useRef } from 'preact/hooks'
import type { InputLine, Row } from '../../../generated/contract'
import { say } from '../../base/words'
import { writeFault, writeLink, writeStage } from '../../screen/link'
import { descriptionOf } from '../../screen/descriptions'
import { useStore } from '../../screen/store'
import { SelectInput, TextInput } from '../show/inputs'
import { edit } from '../show/project'
import { QuantityInput } from '../show/quantity-input'
import { faultHashOf, hashOf, leaveFor } from './back'
import { columnOf, headOf, optionsOf, titleOf, type ColumnId, type Names } from './columns'
import { Cures } from './cures'
import { lineOf, makePair, setCells } from './deeds'
import { getList, moveTo, putList, tell } from './list-state'
import { shownIds } from './rows'
import { Figures, hasSource, Verdict } from './verdict'
import { WHOLE_LINE } from './whole-line'

/** The fields of a row in groups, along the way of the signal. */
const GROUPS: readonly (readonly [name: string, columns: readonly ColumnId[]])[] = [
  ['source', ['channel', 'name', 'source', 'lead']],
  ['way', ['di', 'thru', 'run', 'pad', 'patch', 'stage_box']],
  ['destination', ['input', 'destination', 'second', 'split']],
  ['power', ['phantom', 'phantom_from', 'equipment', 'circuit', 'carried']],
  ['more', ['pair', 'note']],
]

interface Properties {
  readonly line: InputLine
  /** Its place in the list, from 0 on. */
  readonly place: number
  readonly row: Row | undefined
  readonly names: Names
  /** Whether it stands in place of the list. */
  readonly alone: boolean
}

/** A row by itself: what is made of it, what would mend it, and all its fields. */
export function RowPanel({ line, place, row: solved, names, alone }: Properties) {
  const row = hasSource(line) ? solved : undefined
  return (
    <section class="row-panel" aria-labelledby="row-title">
      <Head line={line} alone={alone} />
      <p class="row-verdict-line">
        <Verdict line={line} row={row} />
      </p>
      {row !== undefined && row.not_counted !== null && (
        <p class="row-not-counted">
          {row.not_counted} <a href={writeStage('map')}>{say('stage-view-map')}</a>
        </p>
      )}
      {row !== undefined && <Cures line={line} row={row} />}
      <Problems line={line} row={row} />
      <div class="tools">
        <WholeLineLink id={line.id} />
        <FindFaultLink id={line.id} />
        <button type="button" class="chip" onClick={() => paired(line.id)}>
          {say('stage-list-make-pair')}
        </button>
      </div>
      {row !== undefined && row.figures.length > 0 && (
        <details open={!alone}>
          <summary>{say('stage-list-figures')}</summary>
          <Figures row={row} />
        </details>
      )}
      {GROUPS.map(([group, columns]) => (
        <fieldset key={group}>
          <legend>{say(`stage-group-${group}`)}</legend>
          {columns.map(id => (
            <RowField key={id} id={id} line={line} place={place} names={names} />
          ))}
        </fieldset>
      ))}
      <OwnValues line={line} place={place} row={row} />
    </section>
  )
}

function paired(id: string): void {
  const made = makePair(id)
  if (made === null) return
  tell(say('stage-list-paired'))
}

function Head({ line, alone }: Pick<Properties, 'line' | 'alone'>) {
  const title = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    if (!alone) return
    title.current?.focus({ preventScroll: true })
    title.current?.scrollIntoView({ block: 'start' })
  }, [alone])
  const step = (by: number) => {
    const ids = shownIds()
    const next = ids[ids.indexOf(line.id) + by]
    if (next !== undefined) putList({ cursor: { line: next, column: getList().cursor?.column ?? 'name' } })
  }
  const close = () => {
    const { cursor } = getList()
    if (cursor !== null) moveTo(cursor, { open: false })
  }
  return (
    <div class="row-head">
      <h3 id="row-title" ref={title} tabIndex={-1} aria-live="polite">
        {titleOf(line)}
      </h3>
      <div class="row-steps">
        <button type="button" class="chip" aria-label={say('stage-list-previous')} onClick={() => step(-1)}>
          ‹
        </button>
        <button type="button" class="chip" aria-label={say('stage-list-next')} onClick={() => step(1)}>
          ›
        </button>
        <button type="button" class="chip" onClick={close}>
          {say('stage-list-close')}
        </button>
      </div>
    </div>
  )
}

function WholeLineLink({ id }: { readonly id: string }) {
  const settings = useStore(state => state.settings)
  // Only a tap needs its address, which takes the whole show to make.
  const lead = (event: { readonly currentTarget: HTMLAnchorElement }) => {
    event.currentTarget.href = hashOf(id)
  }
  return (
    <a
      class="chip"
      href={writeLink({ text: '', calculator: WHOLE_LINE, values: [] }, settings)}
      onPointerDown={lead}
      onClick={event => {
        lead(event)
        leaveFor(id)
      }}
    >
      {say('stage-list-whole-line')}
    </a>
  )
}

function FindFaultLink({ id }: { readonly id: string }) {
  const lead = (event: { readonly currentTarget: HTMLAnchorElement }) => {
    event.currentTarget.href = faultHashOf(id)
  }
  return (
    <a class="chip" href={writeFault()} onPointerDown={lead} onClick={lead}>
      {say('seek')}
    </a>
  )
}

interface FieldProperties extends Omit<Properties, 'row' | 'alone'> {
  readonly id: ColumnId
}

function RowField({ id, line, place, names }: FieldProperties) {
  const column = columnOf(id)
  if (column === undefined) return null
  const common = { label: headOf(id), value: line[id], where: { list: 'lines', place, field: id } }
  const set = (value: string) => setCells([line.id], id, value, `${line.id} ${id}`)
  if (column.kind.is === 'text') return <TextInput {...common} onText={set} />
  return <SelectInput {...common} options={optionsOf(column, names, line.id)} onChoice={set} />
}

/** Values of this row alone, over those of its gear. */
function OwnValues({ line, place, row }: Omit<Properties, 'names' | 'alone'>) {
  const settings = useStore(state => state.settings)
  const own = Object.entries(line.values)
  if (own.length === 0) return null
  const fields = descriptionOf(WHOLE_LINE, settings)?.fields ?? []
  const set = (field: string, text: string | null) => {
    const what = say('stage-list-did-values', { row: titleOf(line) })
    const change = (values: Record<string, string>) => {
      if (text === null) delete values[field]
      else values[field] = text
    }
    const merge = text === null ? null : `${line.id} ${field}`
    edit(what, draft => change(lineOf(draft, line.id)?.values ?? {}), merge)
  }
  return (
    <fieldset>
      <legend>{say('stage-group-own')}</legend>
      <p class="hint">{say('stage-group-own-hint')}</p>
      {own.map(([id, text]) => {
        const { name = id, choice = null, number = null } = fields.find(field => field.id === id) ?? {}
        const problem = row?.problems.find(([field]) => field === id)?.[1]
        const common = { label: name, value: text, where: { list: 'lines', place, field: id } }
        return (
          <div class="own-value" key={id}>
            {choice !== null ? (
              <SelectInput
                {...common}
                options={choice.options.map(({ id, name }) => [id, name] as const)}
                onChoice={text => set(id, text)}
              />
            ) : number !== null ? (
              <QuantityInput {...common} field={id} texts={line.values} onText={text => set(id, text)} />
            ) : (
              <TextInput {...common} onText={text => set(id, text)} />
            )}
            <button type="button" class="chip" onClick={() => set(id, null)}>
              {say('stage-list-as-gear', { field: name })}
            </button>
            {problem !== undefined && <p class="problem">{problem}</p>}
          </div>
        )
      })}
    </fieldset>
  )
}

/** What is wrong with values that are not the row's own: they come from gear or power. */
function Problems({ line, row }: { readonly line: InputLine; readonly row: Row | undefined }) {
  const settings = useStore(state => state.settings)
  const problems = row?.problems.filter(([field]) => !(field in line.values)) ?? []
  if (problems.length === 0) return null
  const fields = descriptionOf(WHOLE_LINE, settings)?.fields ?? []
  return (
    <ul>
      {problems.map(([field, message]) => (
        <li key={field} class="problem">
          {fields.find(({ id }) => id === field)?.name ?? ''}: {message}
        </li>
      ))}
    </ul>
  )
}
