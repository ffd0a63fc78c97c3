import type { Settings } from '../../generated/contract'
import { withSign } from '../base/unit'
import { asks, type LessonState } from './lesson-state'

/** Points as they are told: to a tenth. */
export function pointsText(points: number, settings: Settings): string {
  return withSign(`${Math.round(points * 10) / 10}`, settings)
}

export interface Score {
  readonly points: number
  /** Of so many, whether they were answered or not. */
  readonly of: number
  readonly answered: number
  readonly asked: number
}

export function scoreOf({ lesson: { steps }, marked }: LessonState): Score {
  const asked = steps.filter(asks)
  const answered = marked.filter(one => one !== null)
  return {
    points: answered.reduce((sum, { points }) => sum + points, 0),
    of: asked.reduce((sum, { points }) => sum + points, 0),
    answered: answered.length,
    asked: asked.length,
  }
}
