import { useLayoutEffect, useRef } from 'preact/hooks'
import type { Description } from '../../generated/contract'
import { AS_TYPED } from '../base/as-typed'
import { shownDescription } from '../screen/descriptions'
import { isFixed } from '../screen/embed'
import { Problem } from '../base/problem'
import { takeOver, want as putWant, wantNothing } from '../screen/screen'
import { filling } from '../screen/shown'
import { embedOf, getState, useStore } from '../screen/store'
import { say } from '../base/words'

const INPUT = 'wanted'

/** Where the question was opened; nothing where a link brought it. */
let opener: HTMLElement | null = null

/** Opens the question backwards for a reading, at its button, with the field asked last. */
export function beginBackwards(reading: string, button: HTMLElement): void {
  const shown = filling()
  const known = shownDescription(getState())
  const field =
    shown?.want?.field ??
    known?.fields.find(({ id, number, detail }) => number !== null && !detail && mayChange(id))?.id ??
    ''
  opener = button
  putWant({ reading, text: '', field })
  document.getElementById(INPUT)?.focus()
}

/** Closes the question; who asked goes on where it was asked. */
function close(reading: string): void {
  wantNothing()
  const named = `[data-reading="${CSS.escape(reading)}"]`
  const places = [`${named} .ask`, `${named}[tabindex]`, 'h1'].map(where => document.querySelector<HTMLElement>(where))
  for (const place of [opener, ...places]) {
    place?.focus()
    // What is gone or folded away does not take it.
    if (place !== null && place === document.activeElement) break
  }
  opener = null
}

function mayChange(id: string): boolean {
  return getState().answer?.fields[id]?.active !== false && !isFixed(embedOf(getState()), id)
}

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
  const opened = useRef(isOpen)
  useLayoutEffect(() => {
    if (isOpen && !opened.current) document.getElementById(INPUT)?.focus()
    opened.current = isOpen
  }, [isOpen])
  if (want === null || good === null) return null
  const { report, fields } = good
  const readings = [...report.headline, ...report.further]
  const reading = readings.find(({ id }) => id === want.reading)
  const numbers = description.fields.filter(
    ({ id, number }) => number !== null && fields[id]?.active !== false && !isFixed(embed, id),
  )
  const field = numbers.find(({ id }) => id === want.field)
  const meant = withUnit(want.text, reading?.text)
  return (
    <section class="backwards" aria-labelledby="backwards">
      <h2 id="backwards">{say('backwards')}</h2>
      <div class="sentence">
        <label>
          <span>{say('backwards-reading')}</span>
          <select value={want.reading} onChange={event => putWant({ reading: event.currentTarget.value })}>
            {reading === undefined && <option value={want.reading}>{want.reading}</option>}
            {readings.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <label>
          <span>{say('backwards-value')}</span>
          <input
            id={INPUT}
            type="text"
            {...AS_TYPED}
            enterkeyhint="done"
            placeholder={reading?.text}
            value={want.text}
            aria-invalid={Boolean(backwards?.problem)}
            aria-describedby="wanted-problem"
            onInput={event => putWant({ text: event.currentTarget.value })}
          />
        </label>
        <label>
          <span>{say('backwards-field')}</span>
          <select value={want.field} onChange={event => putWant({ field: event.currentTarget.value })}>
            {field === undefined && <option value={want.field}>{want.field}</option>}
            {numbers.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        </label>
      </div>
      <div id="wanted-problem">
        {backwards?.problem && <Problem problem={backwards.problem} onTake={text => putWant({ text })} />}
      </div>
      <div class="found" role="status" aria-busy={asking}>
        {want.text.trim() === '' && <p>{say('backwards-hint')}</p>}
        {asking ? <p>{say('backwards-asking')}</p> : backwards?.problem === null && <p>{backwards.message}</p>}
        {!asking && backwards?.problem === null && backwards.found.length === 0 && meant !== null && (
          <button type="button" class="chip" onClick={() => putWant({ text: meant })}>
            {say('backwards-meant', { value: meant })}
          </button>
        )}
        {backwards?.found.map(found => (
          <p key={found.value} class="one" data-found={found.value}>
            <strong>{found.text}</strong>
            <span>{say('backwards-gives', { reading: found.reading })}</span>
            <button
              type="button"
              class="chip"
              disabled={asking || isFixed(embed, want.field)}
              aria-label={say('backwards-use-value', { value: found.text, field: field?.name ?? want.field })}
              onClick={() => takeOver(want.field, found.text)}
            >
              {say('backwards-use')}
            </button>
          </p>
        ))}
      </div>
      <button type="button" class="quiet" onClick={() => close(want.reading)}>
        {say('close')}
      </button>
    </section>
  )
}
