// What a learner hands in: responses, and what they were worth here. Whoever collects it
// marks the responses again, so the points are only for the eye.

import type { LessonResponse } from '../../generated/contract'
import type { LessonState } from './lesson-state'
import { NO_RESPONSE } from './lesson-state'

interface ResultFile {
  readonly stageohm: 'lesson-result'
  readonly version: 1
  /** `text` is by what the text of the lesson is known. */
  readonly lesson: { readonly id: string; readonly revision: number; readonly text: string }
  readonly seed: number
  readonly name: string
  /** By step; nothing where nothing was committed. */
  readonly responses: readonly (Partial<LessonResponse> | null)[]
  readonly points: readonly (number | null)[]
}

export function resultOf({ lesson, text, seed, responses, marked }: LessonState, name: string): ResultFile {
  return {
    stageohm: 'lesson-result',
    version: 1,
    lesson: { id: lesson.id, revision: lesson.revision, text },
    seed,
    name,
    responses: marked.map((one, step) => (one === null ? null : saidOf(responses[step] ?? NO_RESPONSE))),
    points: marked.map(one => (one === null ? null : Math.round(one.points * 100) / 100)),
  }
}

/** What of a response says something. */
export function saidOf(response: LessonResponse): Partial<LessonResponse> {
  const isSaid = ([key, value]: [string, unknown]) =>
    JSON.stringify(value) !== JSON.stringify(NO_RESPONSE[key as keyof LessonResponse])
  return Object.fromEntries(Object.entries(response).filter(isSaid)) as Partial<LessonResponse>
}
