// How much of a step is seen on a wall.

import type { LessonStep } from '../../../generated/contract'
import { asks } from '../lesson-state'

/** A step that measures uncovers what was measured before what is right. */
export type Uncovered = 'nothing' | 'readings' | 'answer'

const ALL: readonly unknown[] = ['nothing', 'readings', 'answer'] satisfies Uncovered[]

export function isUncovered(value: unknown): value is Uncovered {
  return ALL.includes(value)
}

/** Whether there is anything to uncover. */
export function isCovered(step: LessonStep): boolean {
  return asks(step) || step.because !== ''
}

/** What is seen once one more is uncovered; after all of it, nothing again. */
export function after(uncovered: Uncovered, { kind }: Pick<LessonStep, 'kind'>): Uncovered {
  if (uncovered === 'answer') return 'nothing'
  return uncovered === 'nothing' && kind === 'fault' ? 'readings' : 'answer'
}
