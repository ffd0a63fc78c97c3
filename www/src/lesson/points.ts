import type { LessonKey, Settings } from '../../generated/contract'
import { withSign } from '../base/unit'
import { asks, type LessonState } from './lesson-state'

/** Points as they are told: to a tenth. */
export function pointsText(points: number, settings: Settings): string {
  return withSign(`${Math.round(points * 10) / 10}`, settings)
}

/** Whether nothing is right at a step: it does not count then. */
export function hasNoAnswer({ text, curve, case: wrong }: LessonKey): boolean {
  return text === '' && curve.length === 0 && wrong === null
}

export interface Score {
  readonly points: number
  /** Of so many, whether they were answered or not; what turned out to have no answer is not among them. */
  readonly of: number
  /** With those that turned out to have no answer. */
  readonly answered: number
  readonly asked: number
}

export function scoreOf({ lesson: { steps }, marked }: Pick<LessonState, 'lesson' | 'marked'>): Score {
  const answered = marked.filter(one => one !== null)
  return {
    points: answered.reduce((sum, { points }) => sum + points, 0),
    of: steps.reduce((sum, step, at) => sum + (asks(step) ? (marked[at]?.of ?? step.points) : 0), 0),
    answered: answered.length,
    asked: steps.filter(asks).length,
  }
}
