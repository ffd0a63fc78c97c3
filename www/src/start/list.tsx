import { useMemo } from 'preact/hooks'
import type { LookUpEntry } from '../../generated/contract'
import { say } from '../base/words'
import { entriesFor } from '../engine/entries'
import { pinned, recent } from '../screen/at-hand'
import { allDescriptions } from '../screen/descriptions'
import { writeEntry } from '../screen/link'
import { search } from '../screen/screen'
import { useStore } from '../screen/store'
import { Share } from '../share/share'
import { Finder } from './finder'
import { calculatorItem, type Item } from './found'
import { OfflineLine } from './offline-line'

/** The start: one search over everything, then every calculator and what there is to look up. */
export function List() {
  const settings = useStore(state => state.settings)
  const text = useStore(({ place }) => (place.kind === 'list' ? place.find : ''))
  const calculators = useMemo(
    () => allDescriptions(settings).map(description => calculatorItem(description, settings)),
    [settings],
  )
  return (
    <>
      <div class="intro">
        <h1 tabIndex={-1}>{say('title')}</h1>
        <p>{say('purpose')}</p>
      </div>
      <Finder id="find" text={text} onText={search} />
      {text.trim() === '' && (
        <>
          <AtHand calculators={calculators} />
          <ul class="calculators">
            {calculators.map(item => (
              <Stop key={item.href} item={item} />
            ))}
          </ul>
          <LookUps entries={entriesFor(settings)} />
          <Share title={say('name')} name="page" />
          <OfflineLine />
        </>
      )}
    </>
  )
}

function Stop({ item: { title, text, href, calculator } }: { readonly item: Item }) {
  return (
    <li>
      <a href={href} data-calculator={calculator}>
        <span class="title">{title}</span> <span class="purpose">{text}</span>
      </a>
    </li>
  )
}

/** What was pinned and what was last used, with the values that it was left with. */
function AtHand({ calculators }: { readonly calculators: readonly Item[] }) {
  const visits = recent()
  const pins = pinned()
  const ids = [...new Set([...pins, ...visits.map(({ calculator }) => calculator)])]
  const known = ids.flatMap(id => calculators.find(({ calculator }) => calculator === id) ?? [])
  if (known.length === 0) return null
  return (
    <section class="at-hand" aria-labelledby="at-hand">
      <h2 id="at-hand">{say('at-hand')}</h2>
      <ul>
        {known.map(({ title, href, calculator }) => (
          <li key={href}>
            <a href={visits.find(visit => visit.calculator === calculator)?.hash ?? href}>
              {title}
              {pins.includes(calculator ?? '') && <span class="kind">{say('at-hand-pinned')}</span>}
            </a>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** What there is to look up, by kind. */
function LookUps({ entries }: { readonly entries: readonly LookUpEntry[] }) {
  const kinds = [...new Set(entries.map(({ kind }) => kind))]
  return (
    <section class="look-ups" aria-labelledby="look-ups">
      <h2 id="look-ups">{say('look-ups')}</h2>
      {kinds.map(kind => {
        const some = entries.filter(entry => entry.kind === kind)
        return (
          <details key={kind}>
            <summary>
              <h3>{say(`kinds-${kind}`)}</h3> <span class="count">{some.length}</span>
            </summary>
            <ul>
              {(kind === 'term' ? some.sort((a, b) => a.title.localeCompare(b.title)) : some).map(({ id, title }) => (
                <li key={id}>
                  <a href={writeEntry(id)}>{title}</a>
                </li>
              ))}
            </ul>
          </details>
        )
      })}
    </section>
  )
}
