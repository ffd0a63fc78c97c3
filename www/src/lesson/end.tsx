import { useState } from 'preact/hooks'
import type { Marked } from '../../generated/contract'
import { AS_TYPED } from '../base/as-typed'
import { fileName } from '../base/download'
import { Save } from '../base/save'
import { say } from '../base/words'
import { writeLesson } from '../screen/link'
import { getState, isEmbedded, useStore } from '../screen/store'
import { printOut } from '../share/print-out'
import { finishHere, standingOf, useLaunched } from './launched'
import { again, asks, go, type LessonState } from './lesson-state'
import { hasNoAnswer, pointsText, scoreOf } from './points'
import { ResultCode } from './result-code'
import { resultOf } from './result-file'
import { keepLearner, learner } from './runs'
import { stepTitle } from './title'

/** A name has at most so many letters. */
const LONGEST_NAME = 80

/** What came of the lesson, and what can be done with it. */
export function End({ state }: { readonly state: LessonState }) {
  const settings = useStore(state => state.settings)
  const score = scoreOf(state)
  const { lesson } = state
  const share = score.of > 0 ? score.points / score.of : 0
  const percent = (share: number) => `${Math.round(100 * share)}`
  const told = {
    points: pointsText(score.points, settings),
    of: pointsText(score.of, settings),
    percent: percent(share),
  }
  return (
    <section class="lesson-step lesson-end" aria-labelledby="lesson-step">
      <h2 id="lesson-step" tabIndex={-1} data-focus>
        {say('lesson-result')}
      </h2>
      {score.of > 0 && (
        <p class="lesson-total">
          <strong>{say('lesson-total', told)}</strong>
          {lesson.pass > 0 && (
            <span data-passed={share >= lesson.pass}>
              {say(share >= lesson.pass ? 'lesson-passed' : 'lesson-not-passed', { percent: percent(lesson.pass) })}
            </span>
          )}
        </p>
      )}
      {score.answered < score.asked && <p>{say('lesson-left', { count: `${score.asked - score.answered}` })}</p>}
      <FinishHere state={state} left={score.asked - score.answered} />
      <Steps state={state} />
      <Confidence state={state} />
      <HandIn state={state} />
    </section>
  )
}

/** A learner can always finish, whatever a step asks. */
function FinishHere({ state, left }: { readonly state: LessonState; readonly left: number }) {
  const launched = useLaunched()
  const isOpen = ['counts', 'unreached'].includes(standingOf(launched, state)) && !launched.isFinished
  if (!launched.is || !isOpen || left === 0) return null
  const finish = () => {
    finishHere()
    // The button is gone then.
    document.getElementById('lesson-step')?.focus()
  }
  return (
    <p>
      <button type="button" class="chip" onClick={finish}>
        {say(left === 1 ? 'lesson-launched-finish-one' : 'lesson-launched-finish', { count: `${left}` })}
      </button>
    </p>
  )
}

function Steps({ state: { lesson, marked, responses } }: { readonly state: LessonState }) {
  const settings = useStore(state => state.settings)
  return (
    <table class="lesson-points">
      <caption class="unseen">{say('lesson-by-step')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('lesson-step-name')}</th>
          <th scope="col">{say('lesson-points')}</th>
          <th scope="col">{say('lesson-sure-was')}</th>
        </tr>
      </thead>
      <tbody>
        {lesson.steps.map((step, at) => {
          if (!asks(step)) return null
          const one = marked[at] ?? null
          const sure = responses[at]?.sure ?? null
          const of = pointsText(step.points, settings)
          return (
            <tr key={at}>
              <th scope="row">
                <button type="button" class="link" onClick={() => go(at)}>
                  <bdi>{stepTitle(step, at)}</bdi>
                </button>
              </th>
              <td>
                {one === null
                  ? say('lesson-not-answered', { of })
                  : hasNoAnswer(one.key)
                    ? say('lesson-verdict-out')
                    : say('lesson-of', { points: pointsText(one.points, settings), of })}
              </td>
              <td>{one === null || sure === null ? '–' : say(`lesson-sure-${sure}`)}</td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}

/** How much of what was said with each confidence was right, whatever hints cost. */
function Confidence({ state: { marked, responses } }: { readonly state: LessonState }) {
  const rows = [1, 2, 3].map(sure => {
    const counts = (one: Marked | null) => one !== null && !hasNoAnswer(one.key)
    const of = marked.filter((one, at) => counts(one) && responses[at]?.sure === sure)
    const right = of.reduce((sum, one) => sum + (one?.before_hints ?? 0), 0)
    return { sure, count: of.length, share: of.length === 0 ? 0 : right / of.length }
  })
  if (rows.every(({ count }) => count === 0)) return null
  return (
    <section class="lesson-confidence" aria-labelledby="lesson-confidence">
      <h3 id="lesson-confidence">{say('lesson-confidence')}</h3>
      <ul>
        {rows
          .filter(({ count }) => count > 0)
          .map(({ sure, count, share }) => (
            <li key={sure}>
              <span>{say(`lesson-sure-${sure}`)}</span>
              <progress max={1} value={share} aria-hidden="true" />
              <span>{say('lesson-confidence-of', { percent: `${Math.round(100 * share)}`, count: `${count}` })}</span>
            </li>
          ))}
      </ul>
    </section>
  )
}

function HandIn({ state }: { readonly state: LessonState }) {
  const [refused, setRefused] = useState(false)
  const { lesson, seed } = state
  const launched = useLaunched()
  const { is, system, isFinished } = launched
  const beforeAgain = is && system !== 'looking' ? `lesson-launched-again-${isFinished ? 'over' : 'practice'}` : null
  // A learning system that keeps the answers has the result already.
  const isKept = is && ['counts', 'finished'].includes(standingOf(launched, state)) && launched.refused === null
  return (
    <>
      {!isKept && <Result state={state} />}
      <div class="tools">
        <button type="button" class="chip" onClick={() => setRefused(!printOut())}>
          {say('lesson-print')}
        </button>
        <button
          type="button"
          class="chip"
          aria-describedby={beforeAgain === null ? undefined : 'lesson-before-again'}
          onClick={() => void again()}
        >
          {say('lesson-again')}
        </button>
        {!isEmbedded(getState()) && (
          <a class="chip" href={writeLesson()}>
            {say('lesson-all')}
          </a>
        )}
        <span role="status">{refused && say('lesson-print-refused')}</span>
      </div>
      {beforeAgain !== null && (
        <p class="hint" id="lesson-before-again">
          {say(beforeAgain)}
        </p>
      )}
      <p class="hint">{say('lesson-seed', { seed: `${seed}`, id: lesson.id, revision: `${lesson.revision}` })}</p>
      {!is && <p class="hint">{say(state.kept ? 'lesson-nothing-sent' : 'lesson-not-kept')}</p>}
    </>
  )
}

/** The result as a file or a picture, under a name. */
function Result({ state }: { readonly state: LessonState }) {
  const [name, setName] = useState(learner)
  return (
    <>
      <label class="lesson-number lesson-name">
        <span>{say('lesson-nickname')}</span>
        <input
          type="text"
          dir="auto"
          {...AS_TYPED}
          maxLength={LONGEST_NAME}
          value={name}
          onInput={event => {
            setName(event.currentTarget.value)
            keepLearner(event.currentTarget.value)
          }}
        />
        <span class="hint">{say('lesson-nickname-hint')}</span>
      </label>
      <div class="tools">
        <Save
          name={say('lesson-save-result')}
          content={() => JSON.stringify(resultOf(state, name.trim()), null, 1)}
          type="application/json"
          file={() => fileName(['result', state.lesson.id, name].map(inName).filter(Boolean), 'json')}
        />
        <ResultCode state={state} name={name.trim()} />
      </div>
    </>
  )
}

/** A text as part of the name of a file. */
function inName(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^\p{L}\d]+/gu, '-')
    .replace(/^-|-$/g, '')
}
