import { say } from '../../base/words'
import type { LessonState } from '../lesson-state'
import { stepTitle, titleOf } from '../title'
import { titledIn } from '../told-in'
import { areKeysOn, useKeys, type Deed } from './keys'
import { NoteText } from './note-text'
import { useWall } from './notes-window'
import { revealName } from './reveal-name'
import { isCovered } from './uncovered'

const DEEDS = ['back', 'reveal', 'next', 'blank'] as const

/** The notes in a window of their own: they follow what is on the wall, and lead it. */
export function Notes({ state }: { readonly state: LessonState }) {
  const { wall, lead } = useWall()
  const { steps } = state.lesson
  const at = Math.min(wall?.step ?? state.step, steps.length - 1)
  const deeds: Record<Deed, () => void> = {
    back: () => lead('back'),
    next: () => lead('next'),
    reveal: () => lead('reveal'),
    blank: () => lead('blank'),
    notes: () => undefined,
  }
  useKeys(areKeysOn(), deeds)
  const step = steps[at]
  const after = steps[at + 1]
  return (
    <article class="lesson lesson-notes" data-step={at + 1} lang={state.lesson.language || undefined}>
      <header class="lesson-head">
        <h1 tabIndex={-1} dir="auto" lang={titledIn(state, state.lesson)}>
          {titleOf(state.lesson)}
        </h1>
        <p>{say('lesson-step-of', { step: `${at + 1}`, steps: `${steps.length}` })}</p>
      </header>
      <h2 dir="auto" lang={step && titledIn(state, step)}>
        {stepTitle(step, at)}
      </h2>
      <div class="lesson-note">
        <NoteText state={state} at={at} withKey />
      </div>
      {after !== undefined && <p class="hint">{say('lesson-note-after', { step: stepTitle(after, at + 1) })}</p>}
      {wall === null ? (
        <p role="status">{say('lesson-no-wall')}</p>
      ) : (
        <div class="lesson-class-ways">
          {DEEDS.map(deed => (
            <button
              key={deed}
              type="button"
              class="chip"
              data-deed={deed}
              aria-disabled={deed === 'reveal' && step !== undefined && !isCovered(step)}
              onClick={deeds[deed]}
            >
              {deed === 'reveal' && step !== undefined ? revealName(wall.uncovered, step) : say(`lesson-class-${deed}`)}
            </button>
          ))}
        </div>
      )}
    </article>
  )
}
