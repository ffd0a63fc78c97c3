import { useId, useState } from 'preact/hooks'
import type { Echo, FieldDescription, Settings } from '../../generated/contract'
import { AS_TYPED } from '../base/as-typed'
import { Problem } from '../base/problem'
import { say } from '../base/words'
import { fresh, writePlace, type Texts } from '../screen/link'
import { tidy } from '../screen/translate'
import { isSame, WHOLE_LINE, type Search } from './address'
import { askedOf, beginnings, lineOf, summaryOf, withText } from './line'
import { go } from './search-state'

interface Properties {
  readonly search: Search
  /** Whether lines to start from stand in the open. */
  readonly chips?: boolean
}

/** The line, and what can be changed of it at any time. */
export function LinePanel({ search, chips = false }: Properties) {
  const { texts, settings } = search
  const line = lineOf(texts, settings)
  const asked = line === null ? [] : askedOf(line, texts)
  const wrong = asked.some(({ id }) => line?.fields[id]?.problem)
  const [open, setOpen] = useState(wrong)
  if (line === null) return null
  return (
    <section class="fault-line" aria-label={say('fault-line')}>
      {chips && <Beginnings texts={texts} settings={settings} />}
      <details open={open} onToggle={event => setOpen(event.currentTarget.open)}>
        <summary>
          <strong>{say('fault-line')}</strong> {summaryOf(line)}
        </summary>
        {!chips && <Beginnings texts={texts} settings={settings} />}
        <div class="fault-fields">
          {asked.map(field => (
            <LineField key={field.id} field={field} echo={line.fields[field.id]} texts={texts} settings={settings} />
          ))}
        </div>
        {wrong && <p class="hint">{say('fault-line-stale')}</p>}
        <p class="hint">
          {say('fault-line-more')}{' '}
          <a href={writePlace(fresh(WHOLE_LINE, texts), settings)}>{say('fault-line-whole')}</a>
        </p>
      </details>
    </section>
  )
}

function Beginnings({ texts, settings }: { readonly texts: Texts; readonly settings: Settings }) {
  return (
    <div role="group" class="chips" aria-label={say('fault-line-from')}>
      {beginnings(settings).map(one => (
        <button
          key={one.id}
          type="button"
          class="chip"
          data-line={one.id}
          aria-pressed={isSame(one.texts, texts)}
          onClick={() => go({ texts: one.texts })}
        >
          {one.name}
        </button>
      ))}
    </div>
  )
}

interface FieldProperties {
  readonly field: FieldDescription
  readonly echo: Echo | undefined
  readonly texts: Texts
  readonly settings: Settings
}

function LineField({ field: { id, name, choice }, echo, texts, settings }: FieldProperties) {
  const input = useId()
  const problem = echo?.problem ?? null
  const put = (text: string) => go({ texts: withText(texts, id, text, settings) }, choice === null ? 'typing' : 'step')
  const common = { id: input, 'aria-invalid': problem !== null, 'aria-describedby': `${input}-says` }
  return (
    <div class="fault-field" data-field={id}>
      <label for={input}>{name}</label>
      {choice === null ? (
        <input
          {...common}
          {...AS_TYPED}
          type="text"
          inputMode="decimal"
          value={texts[id] ?? tidy(echo?.text ?? '')}
          onInput={event => put(event.currentTarget.value)}
        />
      ) : (
        <select {...common} value={echo?.text} onChange={event => put(event.currentTarget.value)}>
          {choice.options.map(option => (
            <option key={option.id} value={option.id}>
              {option.name}
            </option>
          ))}
        </select>
      )}
      <div id={`${input}-says`}>{problem !== null && <Problem problem={problem} onTake={put} />}</div>
    </div>
  )
}
