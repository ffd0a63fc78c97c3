// The inputs of the stage's forms: what is typed is in the show at once, and what is
// wrong with it stands beneath.

import { useId, useState } from 'preact/hooks'
import type { Problem as Trouble, Told } from '../../../generated/contract'
import { Problem } from '../../base/problem'
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
  readonly where?: Where | undefined
  /** What is wrong with it, where a calculator says so. */
  readonly problem?: Trouble | null
  /** What one would type there. */
  readonly hint?: string | undefined
  readonly numeric?: boolean
}

export function TextInput({ label, value, onText, where, problem = null, hint, numeric = false }: TextProperties) {
  const id = useId()
  const wrong = useFlaw(where)
  const isWrong = wrong !== null || problem !== null
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
        aria-invalid={isWrong}
        aria-describedby={isWrong ? `${id}-wrong` : undefined}
        onInput={event => onText(event.currentTarget.value)}
      />
      {problem === null ? (
        <Wrong id={`${id}-wrong`} text={wrong} />
      ) : (
        <div id={`${id}-wrong`}>
          <Problem problem={problem} onTake={onText} />
        </div>
      )}
    </div>
  )
}

export type Options = readonly (readonly [id: string, name: string])[]

interface ChoiceProperties {
  readonly label: string
  readonly value: string
  readonly options: Options
  readonly onChoice: (id: string) => void
  readonly where?: Where | undefined
}

/** A menu up to this long is drawn with all that there is to choose from. */
const SHORT = 20

/**
 * A choice; what is chosen and is no longer there stays chosen, and is told. A long menu
 * has what is chosen, and the rest once somebody goes to it: many of them would be slow.
 */
export function SelectInput({ label, value, options, onChoice, where }: ChoiceProperties) {
  const id = useId()
  const wrong = useFlaw(where)
  const [full, setFull] = useState(false)
  const fill = () => setFull(true)
  const shown = full || options.length <= SHORT ? options : options.filter(([option]) => option === value)
  return (
    <div class="stage-field">
      <label for={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : `${id}-wrong`}
        onPointerDown={fill}
        onFocus={fill}
        onBlur={() => setFull(false)}
        onChange={event => onChoice(event.currentTarget.value)}
      >
        {shown.map(([option, name]) => (
          <option key={option} value={option}>
            {name}
          </option>
        ))}
        {!shown.some(([option]) => option === value) && <option value={value}>{value}</option>}
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
    return byPlace(flaws).get(`${list} ${place + 1} ${field}`) ?? null
  })
}

const places = new WeakMap<readonly Told[], ReadonlyMap<string, string>>()

/** The first of what is wrong, by list, row and field: every input of a long list looks for its own. */
function byPlace(flaws: readonly Told[]): ReadonlyMap<string, string> {
  const known = places.get(flaws)
  if (known !== undefined) return known
  const found = new Map([...flaws].reverse().map(({ list, row, field, text }) => [`${list} ${row} ${field}`, text]))
  places.set(flaws, found)
  return found
}
