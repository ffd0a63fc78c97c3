import { useId, useState } from 'preact/hooks'
import type { FieldDescription } from '../../generated/contract'
import { ChoiceInput } from './choice-input'
import { isFixed } from '../screen/embed'
import { memo } from '../base/memo'
import { NumberInput } from './number-input'
import { TermHint } from '../term/term-name'
import { Problem } from '../base/problem'
import { choose, putText } from '../screen/screen'
import { embedOf, useStore } from '../screen/store'
import { say } from '../base/words'

/** One thing that a calculator asks for. */
export const Field = memo(({ field }: { readonly field: FieldDescription }) => {
  const active = useStore(({ answer }) => answer?.fields[field.id]?.active)
  const problem = useStore(({ answer }) => answer?.fields[field.id]?.problem)
  const note = useStore(({ answer }) => answer?.fields[field.id]?.note)
  const locked = useStore(state => isFixed(embedOf(state), field.id))
  const gear = useStore(state => state.gear)
  const [help, setHelp] = useState(false)
  const id = useId()
  if (active === false) return null
  const describedBy = `${id}-says`
  return (
    <div class="field" data-field={field.id} data-unusual={Boolean(note)}>
      <div class="says-what">
        {field.choice === null && !locked ? (
          <label for={id}>
            <Name field={field} />
          </label>
        ) : (
          <span id={`${id}-name`} class="label">
            <Name field={field} />
          </span>
        )}
        {gear && <gear.FromGear field={field} />}
        {field.help !== '' && (
          <button
            type="button"
            class="help"
            aria-expanded={help}
            aria-label={say('help', { field: field.name })}
            onClick={() => setHelp(!help)}
          >
            ?
          </button>
        )}
      </div>
      {locked ? (
        <Locked field={field} />
      ) : field.number !== null ? (
        <NumberInput id={id} field={field} number={field.number} describedBy={describedBy} />
      ) : (
        field.choice !== null && <ChoiceInput id={id} field={field} choice={field.choice} describedBy={describedBy} />
      )}
      <div id={describedBy} class="says">
        {help && <p class="hint">{field.help}</p>}
        {help && <TermHint name={field.name} />}
        {problem && (
          <Problem
            problem={locked ? { ...problem, offers: [] } : problem}
            onTake={text => (field.choice === null ? putText(field.id, text) : choose(field.id, text))}
          />
        )}
        {note && (
          <p class="note" data-note>
            {note}
          </p>
        )}
      </div>
    </div>
  )
})

/** What the author of a lesson put in for good; as it was written where it makes no sense. */
function Locked({ field }: { readonly field: FieldDescription }) {
  const echo = useStore(({ answer }) => answer?.fields[field.id])
  const written = useStore(({ place }) => (place.kind === 'calculator' ? place.filling.current[field.id] : undefined))
  const chosen = field.choice?.options.find(({ id }) => id === echo?.text)?.name
  const text = echo?.problem && written !== undefined ? written : (chosen ?? echo?.text ?? '')
  return (
    <p class="locked" tabIndex={-1}>
      <strong>
        <bdi>{text === '' ? say('absent') : text}</bdi>
      </strong>{' '}
      <span class="hint">{say('frame-locked')}</span>
    </p>
  )
}

/** What it is called, and what stands for it in the formulas. */
function Name({ field: { name, symbol } }: { readonly field: FieldDescription }) {
  return (
    <>
      {name}
      {symbol !== '' && <Symbol text={symbol} />}
    </>
  )
}

/** A symbol of the formulas, its index set low. */
function Symbol({ text }: { readonly text: string }) {
  const [letter = '', index] = text.split('_')
  return (
    <span class="symbol" aria-hidden="true">
      {letter}
      {index !== undefined && <sub>{index}</sub>}
    </span>
  )
}
