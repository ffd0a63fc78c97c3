// What went wrong in an answer, so that it can be counted in a class: no sentence has
// the figures of one learner in it.

import type { LessonResponse, LessonStep, Marked } from '../../../generated/contract'
import { say } from '../../base/words'
import { hasNoAnswer } from '../points'

export interface Mistake {
  /** Alike where it is the same mistake. */
  readonly id: string
  readonly text: string
}

/** Findings of one kind whose figures are those of one learner; the same is said here without. */
const KINDS: readonly string[] = [
  ...['double', 'power', 'decade-high', 'decade-low', 'plateau-high', 'plateau-low', 'level-high', 'level-low'],
  ...['peak-up', 'peak-down', 'peak-height', 'peak-missing', 'peak-invented', 'slope-low', 'slope-high', 'drawn-for'],
]
/** Findings in words that are the same for everybody. */
const SLIPS: readonly string[] = ['sign', 'half-decibels', 'twice-decibels']

export function mistakesOf(step: LessonStep, marked: Marked, response: LessonResponse | null): Mistake[] {
  if (hasNoAnswer(marked.key)) return []
  const { findings, rows, before_hints: share } = marked
  const told = findings.flatMap(({ id, text }) => {
    if (KINDS.includes(id)) return [{ id, text: say(`lesson-often-${id}`) }]
    return SLIPS.includes(id) ? [{ id, text }] : []
  })
  switch (step.kind) {
    case 'target':
    case 'choice':
      return rows
        .filter(({ fits }) => !fits)
        .map(({ id, name }) => ({ id: `${step.kind} ${id}`, text: say(`lesson-often-${step.kind}`, { name }) }))
    case 'fault': {
      const place = response?.case ?? -1
      const named = step.cases[place]?.name
      if (named === undefined || marked.key.case === place) return []
      return [{ id: `fault ${place}`, text: say('lesson-often-fault', { name: named }) }]
    }
    case 'ear':
      return share === 1
        ? []
        : [
            {
              id: 'ear',
              text: say(`lesson-often-ear${findings.some(({ id }) => id === 'ear-imagined') ? '-imagined' : ''}`),
            },
          ]
    case 'number':
      return told.length > 0 || share === 1 ? told : offOf(marked)
    default:
      return told
  }
}

/** To which side a number is off. */
function offOf({ said, key: { value } }: Marked): Mistake[] {
  if (said === null || value === null) return []
  const id = said > value ? 'high' : 'low'
  return [{ id, text: say(`lesson-often-${id}`) }]
}
