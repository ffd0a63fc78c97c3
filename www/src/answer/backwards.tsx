import { useLayoutEffect, useRef } from 'preact/hooks'
import type { Description, FieldDescription, FoundText, Reading } from '../../generated/contract'
import { AS_TYPED } from '../base/as-typed'
import { AskAbout, askNumber } from '../share/ask-about'
import { isFixed } from '../screen/embed'
import { Problem } from '../base/problem'
import { closeBackwards, INPUT, wasOpenedHere } from './ask-backwards'
import { takeOver, want as putWant } from '../screen/screen'
import type { Want } from '../screen/link'
import { embedOf, useStore } from '../screen/store'
import { Awaiting } from './coming'
import { say } from '../base/words'

/** A bare number with the unit that the reading is shown in; nothing where there is none to add. */
function withUnit(text: string, shown: string | undefined): string | null {
  const [, unit] = /[\d∞]\s*([^\d\s.,]+)$/.exec(shown ?? '') ?? []
  return unit !== undefined && /^[-−+]?\d[\d.,]*$/.test(text.trim()) ? `${text.trim()} ${unit}` : null
}

/** Asks which value of a field gives a wanted reading. */
export function Backwards({ description }: { readonly description: Description }) {
  const want = useStore(({ place }) => (place.kind === 'calculator' ? place.filling.want : null))
  const good = useStore(({ place, good }) => (place.kind === 'calculator' && place.filling.want !== null ? good : null))
  const backwards = useStore(state => state.backwards)
  const asking = useStore(state => state.asking)
  const embed = useStore(embedOf)
  const isOpen = want !== null
  // One that was opened before this came begins like any other.
  const opened = useRef(isOpen && !wasOpenedHere())
  useLayoutEffect(() => {
    if (isOpen && !opened.current) document.getElementById(INPUT)?.focus()
    opened.current = isOpen
  }, [isOpen])
  if (want === null || good === null) return null
  const { report, fields } = good
  const readings = [...report.headline, ...report.further]
  const numbers = description.fields.filter(
    ({ id, number }) => number !== null && fields[id]?.active !== false && !isFixed(embed, id),
  )
  const field = numbers.find(({ id }) => id === want.field)
  const asked = readings.find(({ id, value }) => id === want.reading && value !== null)
  const meant = withUnit(want.text, readings.find(({ id }) => id === want.reading)?.text)
  return (
    <section class="backwards" aria-labelledby="backwards">
      <h2 id="backwards">{say('backwards')}</h2>
      <Sentence want={want} readings={readings} fields={numbers} wrong={Boolean(backwards?.problem)} />
      <div id="wanted-problem">
        {backwards?.problem && <Problem problem={backwards.problem} onTake={text => putWant({ text })} />}
      </div>
      <div class="found" role="status" aria-busy={asking}>
        {want.text.trim() === '' && <p>{say('backwards-hint')}</p>}
        {asking ? (
          <Awaiting>{say('backwards-asking')}</Awaiting>
        ) : (
          backwards?.problem === null && <p>{backwards.message}</p>
        )}
        {!asking && backwards?.problem === null && backwards.found.length === 0 && meant !== null && (
          <button type="button" class="chip" onClick={() => putWant({ text: meant })}>
            {say('backwards-meant', { value: meant })}
          </button>
        )}
        {backwards?.found.map(found => (
          <Found
            key={found.value}
            found={found}
            field={field?.name ?? want.field}
            disabled={asking || isFixed(embed, want.field)}
            onTake={() => takeOver(want.field, found.text)}
          />
        ))}
      </div>
      <div class="tools">
        {asked !== undefined && <AskAbout key={asked.id} step={() => askNumber(asked)} about={asked.name} />}
        <button type="button" class="quiet" onClick={() => closeBackwards(want.reading)}>
          {say('close')}
        </button>
      </div>
    </section>
  )
}

interface SentenceProperties {
  readonly want: Want
  readonly readings: readonly Reading[]
  readonly fields: readonly FieldDescription[]
  /** Whether the wanted value makes no sense. */
  readonly wrong: boolean
}

/** The question as a sentence with three gaps. */
function Sentence({ want, readings, fields, wrong }: SentenceProperties) {
  return (
    <div class="sentence">
      <Choice
        name={say('backwards-reading')}
        value={want.reading}
        among={readings}
        onChoose={reading => putWant({ reading })}
      />
      <label>
        <span>{say('backwards-value')}</span>
        <input
          id={INPUT}
          type="text"
          {...AS_TYPED}
          enterkeyhint="done"
          placeholder={readings.find(({ id }) => id === want.reading)?.text}
          value={want.text}
          aria-invalid={wrong}
          aria-describedby="wanted-problem"
          onInput={event => putWant({ text: event.currentTarget.value })}
        />
      </label>
      <Choice name={say('backwards-field')} value={want.field} among={fields} onChoose={field => putWant({ field })} />
    </div>
  )
}

interface ChoiceProperties {
  readonly name: string
  /** An identifier; what a link names and nobody knows is shown as it stands. */
  readonly value: string
  readonly among: readonly { readonly id: string; readonly name: string }[]
  readonly onChoose: (id: string) => void
}

function Choice({ name, value, among, onChoose }: ChoiceProperties) {
  return (
    <label>
      <span>{name}</span>
      <select value={value} onChange={event => onChoose(event.currentTarget.value)}>
        {among.every(({ id }) => id !== value) && <option value={value}>{value}</option>}
        {among.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
    </label>
  )
}

interface FoundProperties {
  readonly found: FoundText
  /** The name of the field that it is for. */
  readonly field: string
  readonly disabled: boolean
  readonly onTake: () => void
}

/** One value that was found, to be taken over. */
function Found({ found: { value, text, reading }, field, disabled, onTake }: FoundProperties) {
  return (
    <p class="one" data-found={value}>
      <strong>{text}</strong>
      <span>{say('backwards-gives', { reading })}</span>
      <button
        type="button"
        class="chip"
        disabled={disabled}
        aria-label={say('backwards-use-value', { value: text, field })}
        onClick={onTake}
      >
        {say('backwards-use')}
      </button>
    </p>
  )
}
