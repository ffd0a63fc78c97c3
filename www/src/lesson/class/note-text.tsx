import { say } from '../../base/words'
import type { LessonState } from '../lesson-state'
import { Said } from '../said'
import { toldIn } from '../told-in'
import { Key } from './slide'

interface Properties {
  readonly state: LessonState
  readonly at: number
  /** Whether what is right stands with it: not where a class can see it. */
  readonly withKey: boolean
}

/** What the trainer reads of a step: its note and what is right. */
export function NoteText({ state, at, withKey }: Properties) {
  const { lesson } = state
  const step = lesson.steps[at]
  const all = [...(at === 0 ? [lesson] : []), ...(step === undefined ? [] : [step])]
  const notes = all.filter(({ note }) => note !== '')
  return (
    <>
      {notes.length === 0 && <p class="hint">{say('lesson-no-note')}</p>}
      {notes.map((of, index) => (
        <div key={index} lang={toldIn(state, of, ({ note }) => note)}>
          <Said text={of.note} />
        </div>
      ))}
      {withKey && <Key state={state} at={at} />}
    </>
  )
}
