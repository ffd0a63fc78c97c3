import type { Lesson, LessonFlaw } from '../../generated/contract'
import { isDeep } from '../base/shape'
import { say } from '../base/words'
import { askStage } from '../engine/stage'
import { getState } from '../screen/store'
import { textOf } from './text-hash'

export interface LessonFile {
  /** Nothing where it is none. */
  readonly lesson: Lesson | null
  readonly flaws: readonly LessonFlaw[]
  /** By what its text is known; empty where it is no lesson. */
  readonly text: string
}

/** Reads the file of a lesson, whatever is in it. */
export async function readLesson(file: unknown): Promise<LessonFile> {
  // What is nested so deep cannot even be handed over to be read.
  if (isDeep(file)) return { lesson: null, flaws: [{ step: null, text: say('lesson-deep') }], text: '' }
  const { lesson, flaws } = await askStage('lesson_read', file, getState().settings)
  return { lesson, flaws, text: lesson === null ? '' : textOf(file) }
}
