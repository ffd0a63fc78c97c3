// Results as a table for spreadsheets: a learner a row, whatever the lesson.

import type { Settings } from '../../../generated/contract'
import type { Cell } from '../../base/csv'
import { say } from '../../base/words'
import { asks } from '../lesson-state'
import type { Collected, Row } from './mark-again'
import { countedOf, noteText, passedText, rightBySure } from './row-text'

const HEADINGS = ['lesson-id', 'revision', 'name', 'seed', 'total', 'of-points', 'passed'] as const

export function csvRows({ rows, unread }: Collected, settings: Settings): Cell[][] {
  const steps = rows.flatMap(({ lesson }) => lesson?.steps.flatMap((step, at) => (asks(step) ? [at] : [])) ?? [])
  const asked = [...new Set(steps)].sort((a, b) => a - b)
  const head = [
    ...HEADINGS.map(one => say(`lesson-collect-${one}`)),
    ...asked.map(at => say('lesson-collect-step', { step: `${at + 1}` })),
    ...[1, 2, 3].map(sure => say('lesson-collect-sure-head', { sure: say(`lesson-sure-${sure}`) })),
    say('lesson-collect-notes'),
    say('lesson-collect-file'),
  ]
  const refused = unread.map(({ source, why }) => [
    ...head.slice(2).map(() => ''),
    say(`lesson-collect-${why}`),
    plain(source),
  ])
  return [head, ...rows.map(row => cellsOf(row, asked, settings)), ...refused]
}

function cellsOf(row: Row, asked: readonly number[], settings: Settings): Cell[] {
  const { result, lesson, marked, points, of, notes, source } = row
  const bySure = rightBySure(row)
  const isKnown = lesson !== null
  return [
    plain(result.id),
    result.revision,
    plain(result.name),
    result.seed,
    isKnown ? points : '',
    isKnown ? of : '',
    passedText(row),
    ...asked.map(at => countedOf(marked[at])?.points ?? ''),
    ...[1, 2, 3].map(one => bySure.find(({ sure }) => sure === one)?.percent ?? ''),
    notes.map(note => noteText(note, row, settings)).join(' '),
    plain(source),
  ]
}

/** What spreadsheets begin a formula with, also behind what they trim or nobody sees, and as wide letters. */
const FORMULA = /^[\s\p{C}]*[=+\-@＝＋－＠]|^[\t\r\n]/u

/** What somebody else wrote is no formula of a spreadsheet. */
export function plain(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text
}
