import { useEffect, useMemo, useState } from 'preact/hooks'
import type { Description, LookUpEntry, LookUpKind } from '../../generated/contract'
import { AS_TYPED } from '../base/as-typed'
import { allDescriptions } from '../screen/descriptions'
import { entriesFor } from '../engine/entries'
import { pinned, pinnedScreens, recent } from '../screen/at-hand'
import { fresh, readPlace, writeEntry, writePlace } from '../screen/link'
import { kindName } from '../look-up/kind'
import { whenKept } from '../base/offline'
import { Put } from './put'
import { Rigs } from './rigs'
import { find, findable } from './search'
import { goTo, search } from '../screen/screen'
import { Share } from '../share/share'
import { useStore } from '../screen/store'
import { say } from '../base/words'

/** Something that can be found, as a link. */
interface Found {
  readonly title: string
  readonly text: string
  readonly href: string
  readonly calculator: string | null
  readonly kind: LookUpKind | 'calculator'
}

/** Every calculator, and everything that can be found. */
function useFindable(entries: readonly LookUpEntry[]) {
  const settings = useStore(state => state.settings)
  const descriptions = allDescriptions(settings)
  const calculators = useMemo(
    () =>
      descriptions.map(({ id, title, purpose }) => ({
        title,
        text: purpose,
        href: writePlace(fresh(id), settings),
        calculator: id,
        kind: 'calculator' as const,
      })),
    [descriptions, settings],
  )
  const all = useMemo(
    () => [
      ...descriptions.map((description, index) => wordsOf(description, calculators[index] as Found)),
      ...entries.map(entry =>
        findable(foundOf(entry), named(entry), [...entry.text, ...entry.warnings, kindName(entry.kind)]),
      ),
    ],
    [descriptions, calculators, entries],
  )
  return { descriptions, calculators, all }
}

/** The start: one search over everything, then every calculator and what there is to look up. */
export function List() {
  const entries = entriesFor(useStore(state => state.settings))
  const text = useStore(({ place }) => (place.kind === 'list' ? place.find : ''))
  const { descriptions, calculators, all } = useFindable(entries)
  const searching = text.trim() !== ''
  const found = useMemo(() => (searching ? find(text, all) : []), [searching, text, all])
  return (
    <>
      <div class="intro">
        <h1 tabIndex={-1}>{say('title')}</h1>
        <p>{say('purpose')}</p>
      </div>
      <Search text={text} first={found[0]} />
      <p class="count" role="status">
        {!searching
          ? ''
          : found.length === 0
            ? say('find-none')
            : say('find-count', { count: String(found.length), all: String(all.length) })}
      </p>
      {searching ? (
        <ul class="hits">
          {found.map(item => (
            <Item key={item.href} item={item} />
          ))}
        </ul>
      ) : (
        <>
          <Rigs descriptions={descriptions} />
          <AtHand calculators={calculators} descriptions={descriptions} />
          <ul class="calculators">
            {calculators.map(item => (
              <Item key={item.href} item={item} />
            ))}
          </ul>
          <LookUps entries={entries} />
          <Share title={say('name')} name="page" />
          <WithoutNetwork />
        </>
      )}
    </>
  )
}

interface SearchProperties {
  readonly text: string
  /** What the key for going there leads to. */
  readonly first: Found | undefined
}

function Search({ text, first }: SearchProperties) {
  return (
    <search>
      <form
        class="find"
        onSubmit={event => {
          event.preventDefault()
          if (first !== undefined) goTo(first.href)
        }}
      >
        <label for="find">{say('find')}</label>
        <input
          id="find"
          type="search"
          {...AS_TYPED}
          enterkeyhint="go"
          placeholder={say('find-example')}
          value={text}
          onInput={event => search(event.currentTarget.value)}
        />
      </form>
    </search>
  )
}

/** Tells when the network may go. */
function WithoutNetwork() {
  const [kept, setKept] = useState(false)
  useEffect(() => whenKept(() => setKept(true)), [])
  return <p role="status">{kept && say('kept-offline')}</p>
}

function Item({ item: { title, text, href, calculator, kind } }: { readonly item: Found }) {
  return (
    <li>
      <a href={href} {...(calculator === null ? {} : { 'data-calculator': calculator })}>
        <span class="title">{title}</span> <span class="kind">{kindName(kind)}</span>
        <span class="purpose">{text}</span>
      </a>
    </li>
  )
}

interface AtHandProperties {
  readonly calculators: readonly Found[]
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

function foundOf({ id, kind, title, text }: LookUpEntry): Found {
  return { title, text: text[0] ?? '', href: writeEntry(id), calculator: null, kind }
}

function wordsOf({ id, title, also, purpose, fields, presets }: Description, item: Found) {
  const names = [...fields.flatMap(({ name, group }) => [name, group]), ...presets.map(({ name }) => name)]
  return findable(item, [...named({ title, also }), id], [purpose, ...names])
}

/** Its title, and the other words for it. */
function named({ title, also }: { readonly title: string; readonly also: string }): string[] {
  return [title, ...also.split(',')]
}
