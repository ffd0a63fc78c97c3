// What goes on the sheets of a class: by seed what is dealt, what is measured, and for the
// trainer what is right.

import type { EarEye, Measured, Settings, StepCheck } from '../../../generated/contract'
import { askStage } from '../../engine/stage'
import type { LessonState } from '../lesson-state'

export interface Prepared {
  /** The lesson as the seed deals it, before anything is answered. */
  readonly state: LessonState
  /** By step what the measurements read, of which paper has none. */
  readonly measured: readonly (readonly Measured[])[]
  /** By step what two rigs look like without their names. */
  readonly eyes: readonly (EarEye | null)[]
  /** By step what is right; nothing on a sheet for learners. */
  readonly checks: readonly StepCheck[] | null
}

/** A seed has 32 bits. */
const SEEDS = 2 ** 32

/** The seeds of a class: one after the other from the first, so that one number tells them all. */
export function seedsOf(first: number, count: number): number[] {
  return Array.from({ length: count }, (_, at) => (first + at) % SEEDS)
}

export async function prepare(
  { what, lesson, own, flaws }: Pick<LessonState, 'what' | 'lesson' | 'own' | 'flaws'>,
  seed: number,
  settings: Settings,
  withKeys: boolean,
): Promise<Prepared> {
  const dealt = await askStage('lesson_deal', lesson, seed)
  const opened = { what, lesson, own, flaws, text: '', file: null, seed, dealt, kept: true, odd: '' }
  const state = { ...opened, step: 0, responses: [], marked: lesson.steps.map(() => null) }
  const measure = (at: number, id: string) => askStage('lesson_measure', lesson, seed, at, id, settings)
  const measured = lesson.steps.map(async (step, at) => {
    const read = await Promise.all(step.kind === 'fault' ? step.measures.map(id => measure(at, id)) : [])
    return read.filter(one => one !== null)
  })
  const eyes = lesson.steps.map((step, at) =>
    step.kind === 'ear' ? askStage('lesson_eye', lesson, seed, at, settings) : null,
  )
  const checks = withKeys ? await askStage('lesson_check', lesson, seed, settings) : null
  return { state, measured: await Promise.all(measured), eyes: await Promise.all(eyes), checks }
}
