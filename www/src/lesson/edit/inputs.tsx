import type { ComponentChildren } from 'preact'
import { useId, useState } from 'preact/hooks'
import { AS_TYPED } from '../../base/as-typed'
import { say } from '../../base/words'
import type { Typed } from '../../screen/lesson-drafts'

interface Properties<T> {
  readonly name: string
  readonly hint?: string
  readonly value: T
  readonly onChange: (value: T) => void
}

interface LabelledProperties {
  readonly name: string
  readonly hint: string | undefined
  readonly children: (input: {
    readonly id: string
    readonly 'aria-describedby': string | undefined
  }) => ComponentChildren
}

/** An input under its name; what else is said of it is no part of that. */
function Labelled({ name, hint, children }: LabelledProperties) {
  const id = useId()
  const hinted = hint === undefined ? undefined : `${id}-hint`
  return (
    <div class="edit-field">
      <label for={id}>{name}</label>
      {children({ id, 'aria-describedby': hinted })}
      {hint !== undefined && (
        <span class="hint" id={hinted}>
          {hint}
        </span>
      )}
    </div>
  )
}

export function TextInput({ name, hint, value, onChange }: Properties<string>) {
  return (
    <Labelled name={name} hint={hint}>
      {input => (
        <input
          type="text"
          {...input}
          {...AS_TYPED}
          value={value}
          onInput={event => onChange(event.currentTarget.value)}
        />
      )}
    </Labelled>
  )
}

export function LongText({ name, hint, value, onChange }: Properties<string>) {
  // As many lines as it has, and one to go on with.
  const rows = Math.min(12, 2 + value.split('\n').length + Math.floor(value.length / 70))
  return (
    <Labelled name={name} hint={hint}>
      {input => (
        <textarea {...input} rows={rows} value={value} onInput={event => onChange(event.currentTarget.value)} />
      )}
    </Labelled>
  )
}

/** A plain number; what is none is kept as it was typed, and told as a flaw. */
export function NumberInput({ name, hint, value, onChange }: Properties<Typed | null | undefined>) {
  const [typed, setTyped] = useState(`${value ?? ''}`)
  const shown = numberOf(typed) === (value ?? '') ? typed : `${value ?? ''}`
  return (
    <Labelled name={name} hint={hint}>
      {input => (
        <input
          {...input}
          type="text"
          inputMode="decimal"
          {...AS_TYPED}
          value={shown}
          onInput={event => {
            setTyped(event.currentTarget.value)
            onChange(numberOf(event.currentTarget.value))
          }}
        />
      )}
    </Labelled>
  )
}

function numberOf(text: string): Typed {
  const number = Number(text.trim().replace(',', '.'))
  return text.trim() === '' || !Number.isFinite(number) ? text : number
}

interface Option {
  readonly id: string
  readonly name: string
}

/** One of several; what is chosen and not among them stays as it stands. */
export function Select({
  name,
  hint,
  value,
  onChange,
  among,
  none,
}: Properties<string> & { readonly among: readonly Option[]; readonly none?: string }) {
  const all = [
    ...(none === undefined && value !== '' ? [] : [{ id: '', name: none ?? say('lesson-edit-choose') }]),
    ...(value === '' || among.some(({ id }) => id === value) ? [] : [{ id: value, name: value }]),
    ...among,
  ]
  return (
    <Labelled name={name} hint={hint}>
      {input => (
        <select {...input} value={value} onChange={event => onChange(event.currentTarget.value)}>
          {all.map(({ id, name }) => (
            <option key={id} value={id} selected={id === value}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Labelled>
  )
}

interface RowsProperties<T> {
  readonly name: string
  readonly rows: readonly T[]
  readonly onChange: (rows: T[], merge: string | null) => void
  readonly empty: T
  readonly add: string
  readonly row: (row: T, put: (row: T) => void, place: number) => ComponentChildren
}

/** A list of things of one form. */
export function Rows<T>({ name, rows, onChange, empty, add, row }: RowsProperties<T>) {
  return (
    <fieldset class="edit-rows">
      <legend>{name}</legend>
      {rows.map((one, place) => (
        <div class="edit-row" key={place}>
          {row(
            one,
            next =>
              onChange(
                rows.map((other, at) => (at === place ? next : other)),
                `${name} ${place}`,
              ),
            place,
          )}
          <button
            type="button"
            class="chip edit-remove"
            aria-label={say('lesson-edit-remove-row', { list: name, place: `${place + 1}` })}
            title={say('lesson-edit-remove')}
            onClick={() =>
              onChange(
                rows.filter((_, at) => at !== place),
                null,
              )
            }
          >
            ×
          </button>
        </div>
      ))}
      <button type="button" class="chip" onClick={() => onChange([...rows, empty], null)}>
        {add}
      </button>
    </fieldset>
  )
}

interface ChecksProperties {
  readonly name: string
  /** What is chosen, in short; how many where nothing is said. */
  readonly told?: string
  readonly hint?: string
  readonly among: readonly Option[]
  readonly chosen: readonly string[]
  readonly onChange: (chosen: string[]) => void
}

/** Several of many. */
export function Checks({ name, told, hint, among, chosen, onChange }: ChecksProperties) {
  const all = [...among, ...chosen.filter(id => among.every(one => one.id !== id)).map(id => ({ id, name: id }))]
  return (
    <details class="edit-fold">
      <summary>
        {name} <span class="hint">{told ?? say('lesson-edit-chosen', { count: `${chosen.length}` })}</span>
      </summary>
      {hint !== undefined && <p class="hint">{hint}</p>}
      <ul class="edit-checks">
        {all.map(({ id, name }) => (
          <li key={id}>
            <label>
              <input
                type="checkbox"
                checked={chosen.includes(id)}
                onChange={({ currentTarget: { checked } }) =>
                  onChange(checked ? [...chosen, id] : chosen.filter(other => other !== id))
                }
              />
              <span>{name}</span>
            </label>
          </li>
        ))}
      </ul>
    </details>
  )
}
