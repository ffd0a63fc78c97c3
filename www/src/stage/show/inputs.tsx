// The inputs of the stage's forms: what is typed is in the show at once, and what is
// wrong with it stands beneath.

import { useId } from 'preact/hooks'
import type { Told } from '../../../generated/contract'
import { useProject } from './project'

/** Where in the show an input writes, so that what is wrong there is told beneath it. */
export interface Where {
  readonly list: Told['list']
  /** The place in that list, from 0 on. */
  readonly place: number
  readonly field: string
}

interface TextProperties {
  readonly label: string
  readonly value: string
  readonly onText: (text: string) => void
  readonly where?: Where
  /** What is wrong with it, where the show does not tell. */
  readonly problem?: string | undefined
  /** What one would type there. */
  readonly hint?: string
  readonly numeric?: boolean
}

export function TextInput({ label, value, onText, where, problem, hint, numeric = false }: TextProperties) {
  const id = useId()
  const flaw = useFlaw(where)
  const wrong = problem ?? flaw
  return (
    <div class="stage-field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        value={value}
        inputMode={numeric ? 'decimal' : 'text'}
        placeholder={hint}
        autocomplete="off"
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : `${id}-wrong`}
        onInput={event => onText(event.currentTarget.value)}
      />
      <Wrong id={`${id}-wrong`} text={wrong} />
    </div>
  )
}

export type Options = readonly (readonly [id: string, name: string])[]

interface ChoiceProperties {
  readonly label: string
  readonly value: string
  readonly options: Options
  readonly onChoice: (id: string) => void
  readonly where?: Where
}

/** A choice; what is chosen and is no longer there stays chosen, and is told. */
export function SelectInput({ label, value, options, onChoice, where }: ChoiceProperties) {
  const id = useId()
  const wrong = useFlaw(where)
  return (
    <div class="stage-field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : `${id}-wrong`}
        onChange={event => onChoice(event.currentTarget.value)}
      >
        {options.map(([option, name]) => (
          <option key={option} value={option}>
            {name}
          </option>
        ))}
        {!options.some(([option]) => option === value) && <option value={value}>{value}</option>}
      </select>
      <Wrong id={`${id}-wrong`} text={wrong} />
    </div>
  )
}

function Wrong({ id, text }: { readonly id: string; readonly text: string | null }) {
  return text === null ? null : (
    <p class="problem" id={id}>
      {text}
    </p>
  )
}

/** What is wrong at a place of the show. */
export function useFlaw(where: Where | undefined): string | null {
  return useProject(({ flaws }) => {
    if (where === undefined) return null
    const { list, place, field } = where
    return flaws.find(flaw => flaw.list === list && flaw.row === place + 1 && flaw.field === field)?.text ?? null
  })
}
