// What is told of a result, in words.

import type { Marked, Settings } from '../../../generated/contract'
import { visible } from '../../base/visible'
import { say } from '../../base/words'
import { hasNoAnswer, pointsText } from '../points'
import type { Note, Row } from './mark-again'

export function noteText(note: Note, { result, lesson, points, said }: Row, settings: Settings): string {
  const isBeyond = said === null && (note === 'forged' || note === 'stale')
  return say(`lesson-collect-note-${note}${isBeyond ? '-beyond' : ''}`, {
    id: visible(result.id),
    revision: `${result.revision}`,
    said: pointsText(said ?? 0, settings),
    points: lesson === null ? '–' : pointsText(points, settings),
  })
}

/** Whether the lesson was passed; empty where there is nothing to pass. */
export function passedText({ lesson, points, of }: Row): string {
  if (lesson === null || lesson.pass === 0 || of === 0) return ''
  return say(points / of >= lesson.pass ? 'lesson-collect-yes' : 'lesson-collect-no')
}

/** What counts of an answer; nothing where there is none, or nothing is right. */
export function countedOf(one: Marked | null | undefined): Marked | null {
  return one === null || one === undefined || hasNoAnswer(one.key) ? null : one
}

/**
 * How right the learner was with each confidence, in percent, whatever hints cost; nothing of
 * one that was not used, nor of a step that has no answer.
 */
export function rightBySure({
  marked,
  result: { responses },
}: Row): { readonly sure: number; readonly percent: number }[] {
  return [1, 2, 3].flatMap(sure => {
    const of = marked.flatMap((one, at) => (responses[at]?.sure === sure ? (countedOf(one) ?? []) : []))
    const right = of.reduce((sum, { before_hints: share }) => sum + share, 0)
    return of.length === 0 ? [] : [{ sure, percent: Math.round((100 * right) / of.length) }]
  })
}

export function sureText(row: Row): string {
  const told = rightBySure(row).map(({ sure, percent }) =>
    say('lesson-collect-sure', { sure: say(`lesson-sure-${sure}`), percent: `${percent}` }),
  )
  return told.join(', ') || '–'
}
