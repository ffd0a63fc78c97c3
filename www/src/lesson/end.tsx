import { useState } from 'preact/hooks'
import { AS_TYPED } from '../base/as-typed'
import { fileName } from '../base/download'
import { Save } from '../base/save'
import { say } from '../base/words'
import { writeLesson } from '../screen/link'
import { getState, isEmbedded, useStore } from '../screen/store'
import { printOut } from '../share/print-out'
import { again, asks, go, type LessonState } from './lesson-state'
import { pointsText, scoreOf } from './points'
import { ResultCode } from './result-code'
import { resultOf } from './result-file'
import { keepLearner, learner } from './runs'

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
      <Steps state={state} />
      <Confidence state={state} />
      <HandIn state={state} />
    </section>
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
                  {step.title || `${at + 1}`}
                </button>
              </th>
              <td>
                {one === null
                  ? say('lesson-not-answered', { of })
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

/** How much of what was said with each confidence was right. */
function Confidence({ state: { marked, responses } }: { readonly state: LessonState }) {
  const rows = [1, 2, 3].map(sure => {
    const of = marked.filter((one, at) => one !== null && responses[at]?.sure === sure)
    const right = of.reduce((sum, one) => sum + (one?.share ?? 0), 0)
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
  const [name, setName] = useState(learner)
  const [refused, setRefused] = useState(false)
  const { lesson, seed } = state
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
          file={() => fileName(['result', lesson.id, name].map(inName).filter(Boolean), 'json')}
        />
        <ResultCode state={state} name={name.trim()} />
        <button type="button" class="chip" onClick={() => setRefused(!printOut())}>
          {say('lesson-print')}
        </button>
        <button type="button" class="chip" onClick={() => void again()}>
          {say('lesson-again')}
        </button>
        {!isEmbedded(getState()) && (
          <a class="chip" href={writeLesson()}>
            {say('lesson-all')}
          </a>
        )}
        <span role="status">{refused && say('lesson-print-refused')}</span>
      </div>
      <p class="hint">{say('lesson-seed', { seed: `${seed}`, id: lesson.id, revision: `${lesson.revision}` })}</p>
      <p class="hint">{say('lesson-nothing-sent')}</p>
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
