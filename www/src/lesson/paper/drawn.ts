// What a seed dealt, told as the calculators tell it.

import type { Settings } from '../../../generated/contract'
import { benchOf, fieldOf } from '../bench'
import type { LessonState } from '../lesson-state'

export interface Drawn {
  readonly id: string
  readonly name: string
  readonly text: string
}

/** By field; each is named by the first step that has it as it was dealt. */
export function drawnOf(state: LessonState, settings: Settings): Drawn[] {
  const { drawn, steps } = state.dealt
  return Object.entries(drawn).map(([id, dealt]) => {
    const at = steps.findIndex(({ values }) => values[id] === dealt)
    const { name, text } = fieldOf(benchOf(state, at, settings), id)
    return { id, name, text: text === '' ? dealt : text }
  })
}
