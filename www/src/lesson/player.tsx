import { useLayoutEffect, useRef } from 'preact/hooks'
import { say } from '../base/words'
import { getState, isEmbedded, useStore } from '../screen/store'
import { End } from './end'
import { asks, go, useLesson, type LessonState } from './lesson-state'
import { isOwn } from './opening'
import { pointsText, scoreOf } from './points'
import { StepView } from './step'
import { titleOf } from './title'
import { titledIn } from './told-in'
import { TrainerLinks } from './trainer-links'

/** The open lesson, for a learner: one step at a time. */
export function Player() {
  const state = useLesson(state => state)
  const article = useRef<HTMLElement>(null)
  useNewStep(article, state === null ? '' : placeOf(state))
  if (state === null) return null
  const { lesson, step, seed } = state
  const isEnd = step >= lesson.steps.length
  return (
    <article ref={article} class="lesson" lang={lesson.language || undefined}>
      <header class="lesson-head">
        <h1 tabIndex={-1} dir="auto" lang={titledIn(state, lesson)}>
          {titleOf(lesson)}
        </h1>
        <Progress state={state} />
      </header>
      {step === 0 && <Flaws state={state} />}
      {isEnd ? <End state={state} /> : <StepView key={placeOf(state)} state={state} at={step} />}
      <nav class="lesson-ways" aria-label={say('lesson-ways')}>
        {step > 0 && (
          <button type="button" class="chip" onClick={() => go(step - 1)}>
            {say('lesson-previous')}
          </button>
        )}
        {!isEnd && (
          <button type="button" class="chip lesson-next" onClick={() => go(step + 1)}>
            {say(nextOf(state))}
          </button>
        )}
      </nav>
      {(step === 0 || isEnd) && isOwn(state) && !isEmbedded(getState()) && (
        <TrainerLinks what={state.what} seed={seed} />
      )}
    </article>
  )
}

/** Each step of each run is another place. */
function placeOf({ seed, step }: LessonState): string {
  return `${seed} ${step}`
}

function nextOf({ lesson, step, marked }: LessonState): string {
  const now = lesson.steps[step]
  if (now !== undefined && asks(now) && marked[step] === null) return 'lesson-skip'
  return step + 1 === lesson.steps.length ? 'lesson-to-result' : 'lesson-next'
}

function Progress({ state }: { readonly state: LessonState }) {
  const settings = useStore(state => state.settings)
  const { points, of } = scoreOf(state)
  const { step, lesson } = state
  const most = lesson.steps.length
  const where =
    step < most ? say('lesson-step-of', { step: `${step + 1}`, steps: `${most}` }) : say('lesson-result-place')
  return (
    <p class="lesson-progress">
      <progress max={most} value={Math.min(step + 1, most)} aria-label={say('lesson-progress')} />
      <span>
        {where}
        {of > 0 &&
          ` · ${say('lesson-points-of', { points: pointsText(points, settings), of: pointsText(of, settings) })}`}
      </span>
    </p>
  )
}

function Flaws({ state: { flaws } }: { readonly state: LessonState }) {
  if (flaws.length === 0) return null
  return (
    <details class="lesson-flaws">
      <summary>{say('lesson-flaws', { count: `${flaws.length}` })}</summary>
      <ul>
        {flaws.map(({ step, text }, index) => (
          <li key={index}>{step === null ? text : `${say('lesson-flaw-step', { step: `${step}` })} ${text}`}</li>
        ))}
      </ul>
    </details>
  )
}

/** The heading of a new step has the focus, which reads it out, and the step begins at the top of the screen. */
function useNewStep(article: { readonly current: HTMLElement | null }, place: string): void {
  const last = useRef(place)
  useLayoutEffect(() => {
    // What had the focus while the lesson was opened is gone.
    if (document.activeElement === document.body) article.current?.querySelector('h1')?.focus()
  }, [article])
  useLayoutEffect(() => {
    if (last.current === place) return
    last.current = place
    article.current?.querySelector<HTMLElement>('[data-focus]')?.focus({ preventScroll: true })
    article.current?.scrollIntoView({ block: 'start' })
  }, [article, place])
}
