import { useLayoutEffect, useRef } from 'preact/hooks'
import { say } from '../base/words'
import { respond } from './lesson-state'
import { SaidInline } from './said'

/** What a hint costs and what all of them cost at most, in percent: as the core takes it off (`lesson/mark`). */
const COST = 20
const MOST = 60

interface Properties {
  readonly hints: readonly string[]
  /** The language of each that is told in another than the rest. */
  readonly langs: readonly (string | undefined)[]
  readonly opened: number
}

/** Hints, one after the other; what one costs is said before it is opened. */
export function Hints({ hints, langs, opened }: Properties) {
  const list = useRef<HTMLOListElement>(null)
  const isPressed = useRef(false)
  useLayoutEffect(() => {
    // The button goes with the last hint, which has the focus in its place.
    if (isPressed.current && opened === hints.length) (list.current?.lastElementChild as HTMLElement | null)?.focus()
    isPressed.current = false
  }, [opened, hints])
  if (hints.length === 0) return null
  const cost = Math.min(COST, MOST - COST * opened)
  return (
    <div class="lesson-hints">
      <ol ref={list} aria-live="polite">
        {hints.slice(0, opened).map((hint, index) => (
          <li key={index} tabIndex={-1}>
            <strong>{say('lesson-hint', { number: `${index + 1}` })}</strong>{' '}
            <span lang={langs[index]}>
              <SaidInline text={hint} />
            </span>
          </li>
        ))}
      </ol>
      {opened < hints.length && (
        <button
          type="button"
          class="chip"
          onClick={() => {
            isPressed.current = true
            respond({ hints: opened + 1 })
          }}
        >
          {say('lesson-hint-open', { number: `${opened + 1}`, count: `${hints.length}` })}
          <span class="hint">
            {cost > 0 ? say('lesson-hint-cost', { percent: `${cost}` }) : say('lesson-hint-free')}
          </span>
        </button>
      )}
    </div>
  )
}
