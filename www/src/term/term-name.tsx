import { useId, useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { LookUpEntry } from '../../generated/contract'
import { useAskedTerm, useTerm } from './terms'
import { Cautions, Warnings } from '../base/warnings'
import { writeEntry } from '../screen/link'
import { embedOf, useStore } from '../screen/store'
import { say } from '../base/words'

/** Browsers that know no popovers show names as they are. */
const KNOWN = 'popover' in HTMLElement.prototype

/** Room between a term and its explanation, and to the edge of the screen, in pixels. */
const GAP = 4
const EDGE = 16

/** A name in which a term of the reference opens what it means, there and then. */
export function TermName({ name }: { readonly name: string }) {
  const found = useTerm(name)
  if (!KNOWN || found === null) return <>{name}</>
  const { before, words, after, entry } = found
  return (
    <>
      {before}
      <Term words={words} entry={entry} />
      {after}
    </>
  )
}

interface TermProperties {
  readonly words: string
  readonly entry: LookUpEntry
}

/** Words that open what the reference says of them. */
export function Term({ words, entry }: TermProperties) {
  const id = useId()
  // How often it was shown since its closing was told, which may come late.
  const [shown, setShown] = useState(0)
  const button = useRef<HTMLButtonElement>(null)
  const popover = useRef<HTMLDivElement>(null)
  useLayoutEffect(() => {
    if (shown === 0 || button.current === null || popover.current === null) return
    place(popover.current, button.current)
    popover.current.focus({ preventScroll: true })
  }, [shown])
  if (!KNOWN) return <>{words}</>
  return (
    <>
      <button
        type="button"
        class="term"
        ref={button}
        aria-label={say('term-open', { term: words })}
        // So that the browser does not take a tap on it for one beside the explanation.
        {...{ popovertarget: id }}
        onClick={event => {
          // The browser would show it later than this is drawn, and a key that is quick
          // would still go to what had the focus.
          event.preventDefault()
          popover.current?.togglePopover()
        }}
      >
        {words}
      </button>
      <div
        id={id}
        class="term-text"
        ref={popover}
        popover="auto"
        role="dialog"
        aria-label={entry.title}
        tabIndex={-1}
        // What it says is there until it is hidden: from in there the browser gives the
        // focus back.
        onBeforeToggle={event => event.newState === 'open' && setShown(shown => shown + 1)}
        onToggle={event => event.newState === 'closed' && setShown(0)}
      >
        {shown > 0 && (
          <>
            <Explained entry={entry} />
            <button type="button" class="quiet" {...{ popovertarget: id, popovertargetaction: 'hide' }}>
              {say('close')}
            </button>
          </>
        )}
      </div>
    </>
  )
}

/** Puts an explanation under its term, or over it where there is more room. */
function place(popover: HTMLElement, term: HTMLElement): void {
  const at = term.getBoundingClientRect()
  const { width, height } = popover.getBoundingClientRect()
  const room = document.documentElement.clientWidth - width - EDGE
  const under = at.bottom + GAP + height < document.documentElement.clientHeight || at.top < height + GAP
  popover.style.left = `${Math.max(EDGE, Math.min(at.left, room)) + scrollX}px`
  popover.style.top = `${(under ? at.bottom + GAP : at.top - GAP - height) + scrollY}px`
}

/** What a term means, as far as it is told beside a name. */
function Explained({ entry: { id, title, text, warnings, cautions } }: { readonly entry: LookUpEntry }) {
  // A lesson is not left.
  const inLesson = useStore(state => embedOf(state) !== null)
  return (
    <>
      <p class="term-title">{title}</p>
      {text.map(text => (
        <p key={text}>{text}</p>
      ))}
      <Warnings texts={warnings} />
      <Cautions texts={cautions} />
      {!inLesson && (
        <p>
          <a href={writeEntry(id)}>{say('term-more')}</a>
        </p>
      )}
    </>
  )
}

/** The term in the name of a field, explained with what helps to fill it in. */
export function TermHint({ name }: { readonly name: string }) {
  const found = useAskedTerm(name)
  if (found === null) return null
  return (
    <p class="hint term-hint">
      <strong>{found.entry.title}:</strong> {found.entry.text[0]}
    </p>
  )
}
