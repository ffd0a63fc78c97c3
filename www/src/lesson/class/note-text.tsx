import { say } from '../../base/words'
import type { LessonState } from '../lesson-state'
import { Said } from '../said'
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
  const note = [at === 0 ? lesson.note : '', lesson.steps[at]?.note ?? ''].filter(Boolean).join('\n\n')
  return (
    <>
      {note === '' ? <p class="hint">{say('lesson-no-note')}</p> : <Said text={note} />}
      {withKey && <Key state={state} at={at} />}
    </>
  )
}
