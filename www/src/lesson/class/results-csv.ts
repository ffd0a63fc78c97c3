// Results as a table for spreadsheets: a learner a row, whatever the lesson.

import type { Cell } from '../../base/csv'
import { say } from '../../base/words'
import { DEFAULTS } from '../../screen/settings'
import { asks } from '../lesson-state'
import type { Collected, Row } from './mark-again'
import { isPassed } from './results-table'
import { noteText, rightBySure } from './row-text'

const HEADINGS = ['lesson-id', 'revision', 'name', 'seed', 'total', 'of-points', 'passed'] as const

export function csvRows({ rows, unread }: Collected): Cell[][] {
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
  return [head, ...rows.map(row => cellsOf(row, asked)), ...refused]
}

function cellsOf(row: Row, asked: readonly number[]): Cell[] {
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
    isKnown ? say(isPassed(row) ? 'lesson-collect-yes' : 'lesson-collect-no') : '',
    ...asked.map(at => marked[at]?.points ?? ''),
    ...[1, 2, 3].map(one => bySure.find(({ sure }) => sure === one)?.percent ?? ''),
    notes.map(note => noteText(note, row, DEFAULTS)).join(' '),
    plain(source),
  ]
}

/** What spreadsheets begin a formula with, also behind what they trim or nobody sees, and as wide letters. */
const FORMULA = /^[\s\p{C}]*[=+\-@＝＋－＠]|^[\t\r\n]/u

/** What somebody else wrote is no formula of a spreadsheet. */
export function plain(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text
}
