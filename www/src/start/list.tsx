import { language } from '../base/language'
import type { ComponentChildren } from 'preact'
import { useMemo } from 'preact/hooks'
import type { Description, LookUpEntry } from '../../generated/contract'
import { say, toldOfCalculators } from '../base/words'
import { Coming } from '../answer/coming'
import { entriesFor } from '../engine/entries'
import { pinned, pinnedScreens, recent } from '../screen/at-hand'
import { allDescriptions } from '../screen/descriptions'
import { readPlace, writeAbout, writeEntry, writeFault, writeLesson, writeStage } from '../screen/link'
import { search } from '../screen/screen'
import { useStore } from '../screen/store'
import { Finder } from './finder'
import { calculatorItem, type Item } from './found'
import { Put } from './put'
import { Rigs } from './rigs'

/** The start: one search over everything, then every calculator and what there is to look up. */
export function List({ children }: { readonly children: ComponentChildren }) {
  const settings = useStore(state => state.settings)
  const text = useStore(({ place }) => (place.kind === 'list' ? place.find : ''))
  // What was put in is told in the words of the calculators, once they have come.
  const isWhole = useStore(({ whole }) => whole === 'here')
  const descriptions = allDescriptions(settings)
  const calculators = useMemo(() => toldOfCalculators().map(told => calculatorItem(told, settings)), [settings])
  return (
    <>
      <div class="intro">
        <h1 tabIndex={-1}>{say('title')}</h1>
        <p>{say('purpose')}</p>
      </div>
      <Finder id="find" text={text} onText={search} />
      {text.trim() === '' && (
        <>
          <Rigs descriptions={descriptions} />
          <AtHand calculators={calculators} descriptions={descriptions} />
          <ul class="calculators">
            <li>
              <a href={writeFault()}>
                <span class="title">{say('seek')}</span> <span class="purpose">{say('seek-purpose')}</span>
              </a>
            </li>
            <li>
              <a href={writeStage()}>
                <span class="title">{say('plan')}</span> <span class="purpose">{say('plan-purpose')}</span>
              </a>
            </li>
            <li>
              <a href={writeLesson()}>
                <span class="title">{say('learn')}</span> <span class="purpose">{say('learn-purpose')}</span>
              </a>
            </li>
            {calculators.map(item => (
              <Stop key={item.href} item={item} />
            ))}
          </ul>
          {isWhole ? <LookUps entries={entriesFor(settings)} /> : <Coming />}
          {children}
          <p class="hint">
            <a href={writeAbout()}>{say('about')}</a>
          </p>
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

interface AtHandProperties {
  readonly calculators: readonly Item[]
  readonly descriptions: readonly Description[]
}

/** What was pinned, with the values that it was pinned with, and what was last used, as it was left. */
function AtHand({ calculators, descriptions }: AtHandProperties) {
  const visits = recent()
  const screens = pinnedScreens()
  const pins = pinned().map(calculator => ({
    calculator,
    hash: [...screens, ...visits].find(visit => visit.calculator === calculator)?.hash,
    isPinned: true,
  }))
  // The last one may be as it was pinned.
  const others = visits.filter(visit => !pins.some(({ hash }) => hash !== undefined && isSame(hash, visit.hash)))
  const known = [...pins, ...others.map(visit => ({ ...visit, isPinned: false }))].flatMap(one => {
    const found = calculators.find(({ calculator }) => calculator === one.calculator)
    return found === undefined ? [] : [{ ...one, title: found.title, href: one.hash ?? found.href }]
  })
  if (known.length === 0) return null
  // Of several of a calculator, their values tell which is which.
  const pinnedAt = new Set(screens.map(({ calculator }) => calculator))
  return (
    <section class="at-hand" aria-labelledby="at-hand">
      <h2 id="at-hand">{say('at-hand')}</h2>
      <ul>
        {known.map(({ title, href, calculator, isPinned }) => (
          <li key={href}>
            <a href={href}>
              {title}
              {isPinned && <span class="kind">{say('at-hand-pinned')}</span>}
              {pinnedAt.has(calculator) && (
                <Put hash={href} description={descriptions.find(({ id }) => id === calculator)} />
              )}
            </a>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** Whether two addresses show the same, whatever settings they were written under. */
function isSame(a: string, b: string): boolean {
  const [one, other] = [readPlace(a), readPlace(b)]
  if (one.kind !== 'calculator' || other.kind !== 'calculator') return a === b
  return JSON.stringify(one.filling) === JSON.stringify(other.filling)
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
              {(kind === 'term' ? some.sort((a, b) => a.title.localeCompare(b.title, language)) : some).map(
                ({ id, title }) => (
                  <li key={id}>
                    <a href={writeEntry(id)}>{title}</a>
                  </li>
                ),
              )}
            </ul>
          </details>
        )
      })}
    </section>
  )
}
