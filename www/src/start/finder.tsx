import { useEffect, useId, useRef } from 'preact/hooks'
import { AS_TYPED } from '../base/as-typed'
import { say, toldOfCalculators } from '../base/words'
import { kindName } from '../look-up/kind'
import { goTo } from '../screen/screen'
import { calculatorItem, type Item, type Results } from './found'
import { useSearch, type Searching } from './use-search'

interface Properties {
  readonly id: string
  readonly text: string
  readonly onText: (text: string) => void
  /** Called when a result is opened. */
  readonly onOpen?: () => void
}

/** One search over everything: a box, and a list of links beneath that the arrow keys walk through. */
export function Finder({ id, text, onText, onOpen }: Properties) {
  const list = useId()
  const { settings, searching, state, results, prepare } = useSearch(text)
  // Who was faster than what searches goes as soon as it has come.
  const hurried = useRef(false)
  const first = results?.items[0]?.href
  const openFirst = () => {
    hurried.current = searching && results === null
    if (first === undefined) return
    onOpen?.()
    goTo(first)
  }
  useEffect(() => {
    if (hurried.current && first !== undefined) openFirst()
  })
  const items = results?.items ?? []
  const isNothing = results !== null && items.length === 0
  const shown = isNothing ? toldOfCalculators().map(one => calculatorItem(one, settings)) : items
  return (
    <div class="finder" onKeyDown={walk}>
      <search>
        <form
          class="find"
          onSubmit={event => {
            event.preventDefault()
            openFirst()
          }}
        >
          <label for={id}>{say('find')}</label>
          <input
            id={id}
            type="search"
            {...AS_TYPED}
            enterkeyhint="go"
            placeholder={say('find-example')}
            aria-controls={list}
            value={text}
            onFocus={() => void prepare()}
            onInput={event => {
              hurried.current = false
              onText(event.currentTarget.value)
            }}
          />
        </form>
      </search>
      <p class="count" role="status">
        {searching && told(state, results)}
      </p>
      <ul class="hits" id={list}>
        {shown.map(item => (
          <Hit key={item.kind + item.href} item={item} onOpen={onOpen} />
        ))}
      </ul>
    </div>
  )
}

function told(state: Searching, results: Results | null): string {
  if (results === null) return say(state === 'failed' ? 'find-failed' : 'find-soon')
  if (results.items.length === 0) return say('find-none')
  if (!results.exact) return say('find-close')
  return say('find-count', { count: String(results.items.length), all: String(results.all) })
}

/** Up and down lead through the box and the links. */
function walk(event: KeyboardEvent): void {
  const step = { ArrowDown: 1, ArrowUp: -1 }[event.key]
  if (step === undefined || event.altKey || event.ctrlKey || event.metaKey) return
  const place = event.currentTarget as HTMLElement
  const stops = [...place.querySelectorAll<HTMLElement>('input, .hits a')]
  const next = stops[stops.findIndex(stop => stop === document.activeElement) + step]
  if (next === undefined) return
  event.preventDefault()
  next.focus()
}

interface HitProperties {
  readonly item: Item
  readonly onOpen: (() => void) | undefined
}

function Hit({ item: { title, text, href, kind, fills }, onOpen }: HitProperties) {
  return (
    <li>
      <a href={href} onClick={() => onOpen?.()}>
        <span class="title">{title}</span> <span class="kind">{kindName(kind)}</span>
        {fills.length > 0 && (
          <span class="fills">
            {fills.map(fill => (
              <span key={fill}>{fill}</span>
            ))}
          </span>
        )}{' '}
        <span class="purpose">{text}</span>
      </a>
    </li>
  )
}
