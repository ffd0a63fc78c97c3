// What is told of a result, in words.

import type { Settings } from '../../../generated/contract'
import { visible } from '../../base/visible'
import { say } from '../../base/words'
import { pointsText } from '../points'
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

/** How right the learner was with each confidence, in percent, whatever hints cost; nothing of one that was not used. */
export function rightBySure({
  marked,
  result: { responses },
}: Row): { readonly sure: number; readonly percent: number }[] {
  return [1, 2, 3].flatMap(sure => {
    const of = marked.filter((one, at) => one !== null && responses[at]?.sure === sure)
    const right = of.reduce((sum, one) => sum + (one?.before_hints ?? 0), 0)
    return of.length === 0 ? [] : [{ sure, percent: Math.round((100 * right) / of.length) }]
  })
}

export function sureText(row: Row): string {
  const told = rightBySure(row).map(({ sure, percent }) =>
    say('lesson-collect-sure', { sure: say(`lesson-sure-${sure}`), percent: `${percent}` }),
  )
  return told.join(', ') || '–'
}
