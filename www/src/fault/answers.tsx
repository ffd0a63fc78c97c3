import type { FaultAnswer, NextStep } from '../../generated/contract'
import { useContext, useState } from 'preact/hooks'
import { say } from '../base/words'
import type { Done, Search } from './address'
import { deedOf, outcomeName } from './said'
import { go, takeBack, tell } from './search-state'
import { Source } from './source'
import { stepDone } from './use-answer'

interface Properties {
  readonly search: Search
  readonly answer: FaultAnswer
}

/** What was done so far; each of it can be changed or taken back. */
export function Answers({ search, answer }: Properties) {
  if (search.done.length === 0) return null
  return (
    <section class="fault-answers" aria-labelledby="fault-answers">
      <h2 id="fault-answers">{say('fault-answers')}</h2>
      <ol>
        {search.done.map((done, place) => (
          <Answered
            key={done.step}
            search={search}
            place={place}
            done={done}
            slips={answer.slip?.answer === place}
            counts={!answer.unknown.includes(done.step)}
          />
        ))}
      </ol>
    </section>
  )
}

interface AnsweredProperties {
  readonly search: Search
  /** Its place among the answers. */
  readonly place: number
  readonly done: Done
  /** Whether it goes least with the others. */
  readonly slips: boolean
  /** Whether this line has such a step. */
  readonly counts: boolean
}

function Answered({ search, place, done: { step, outcome }, slips, counts }: AnsweredProperties) {
  const [changing, setChanging] = useState<NextStep | null>(null)
  const [deed] = deedOf({ step }, useContext(Source))
  const begin = async () => {
    const told = await stepDone(search, place).catch(() => undefined)
    if (told !== undefined) setChanging(told)
    // It is done anew then.
    else go({ done: search.done.filter(other => other.step !== step), now: step })
  }
  const change = (outcome: string | null) => {
    setChanging(null)
    tell(step, outcome)
  }
  return (
    <li data-done={step}>
      <span class="fault-did">
        {deed} <strong>{outcomeName(step, outcome)}</strong>
        {slips && <span class="fault-kind">{say('fault-slip-mark')}</span>}
        {!counts && <span class="hint"> {say('fault-not-counted')}</span>}
      </span>
      <span class="tools">
        <button
          type="button"
          class="quiet"
          aria-expanded={changing !== null}
          aria-label={say('fault-change-of', { step: deed })}
          onClick={() => (changing === null ? void begin() : setChanging(null))}
        >
          {say('fault-change')}
        </button>
        <button
          type="button"
          class="quiet"
          aria-label={say('fault-take-back-of', { step: deed })}
          onClick={() => takeBack(step)}
        >
          {say('fault-take-back')}
        </button>
      </span>
      {changing !== null && (
        <span role="group" class="chips" aria-label={deed}>
          {[...changing.outcomes.map(({ outcome }) => outcome), null].map(one => (
            <button
              key={one ?? '?'}
              type="button"
              class="chip"
              aria-pressed={one === outcome}
              onClick={() => change(one)}
            >
              {outcomeName(step, one)}
            </button>
          ))}
        </span>
      )}
    </li>
  )
}

/** That answers contradict each other, and which is most likely the slip. */
export function Slip({ search, answer: { slip, odds } }: Properties) {
  const source = useContext(Source)
  const done = slip === null ? undefined : search.done[slip.answer]
  if (done === undefined) {
    return odds.length > 0 ? null : (
      <p class="mind" role="alert">
        {say('fault-contradict-all')}
      </p>
    )
  }
  const [deed] = deedOf(done, source)
  return (
    <div class="fault-slip mind" role="alert">
      <p>{say('fault-contradict', { test: deed, outcome: outcomeName(done.step, done.outcome) })}</p>
      <button type="button" class="chip" onClick={() => takeBack(done.step)}>
        {say('fault-slip-back')}
      </button>
    </div>
  )
}
