// What of the finder is on the screen.

import type { NextStep } from '../../generated/contract'
import type { Search } from './address'
import { isWrong, stepsOf, type Told } from './use-answer'

export interface Shown {
  readonly kind: 'danger' | 'start' | 'scope' | 'asking' | 'meter' | 'line' | 'step' | 'found' | 'left'
  /** By what was said so far: once that is otherwise, the focus goes to what is new. */
  readonly name: string
}

export function shownOf(search: Search, told: Told | null): Shown {
  const kind = kindOf(search, told)
  const { danger, symptom, scope, done, now } = told === null ? search : told.search
  return { kind, name: kind === 'asking' ? kind : JSON.stringify([danger, symptom, scope, done, now]) }
}

function kindOf({ danger, symptom, scope }: Search, told: Told | null): Shown['kind'] {
  if (danger) return 'danger'
  if (symptom === '') return 'start'
  if (scope === '') return 'scope'
  if (told === null) return 'asking'
  const { answer } = told
  if (answer.stop !== null) return 'meter'
  if (isWrong(told)) return 'line'
  if (stepShown(told) !== null) return 'step'
  return answer.found === null ? 'left' : 'found'
}

/** The step to do: the one that was chosen, else the next; nothing where a cause is found or none tells more. */
export function stepShown({ search, answer }: Told): NextStep | null {
  return stepsOf(answer).find(({ step }) => step === search.now) ?? answer.next
}
