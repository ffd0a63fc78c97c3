// What is made of a row: a mark, and its worst figure in words.

import type { Figure, InputLine, Row, Settings, Unit } from '../../../generated/contract'
import { print, printing } from '../../base/unit'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'

/** How a row does, the best first. */
export const GRADES = ['fine', 'watch', 'misses', 'stop', 'unsolved', 'empty', 'waiting'] as const
export type Grade = (typeof GRADES)[number]

/** Told apart without colour. */
export const MARKS: Readonly<Record<Grade, string>> = {
  fine: '✓',
  watch: '!',
  misses: '×',
  stop: '⊘',
  unsolved: '?',
  empty: '–',
  waiting: '…',
}

/** Whether a line says what plays into it; before that every figure would be of something else. */
export function hasSource({ source, values }: InputLine): boolean {
  return source !== '' || Object.keys(values).length > 0
}

export function gradeOf(line: InputLine, row: Row | undefined): Grade {
  if (!hasSource(line)) return 'empty'
  if (row === undefined) return 'waiting'
  if (row.problems.length > 0) return 'unsolved'
  if (row.stop) return 'stop'
  if (row.missed > 0) return 'misses'
  return row.warnings > 0 || row.figures.some(({ tone }) => tone !== 'fine') ? 'watch' : 'fine'
}

/** Whether there is something to be done about a row. */
export function isMissing(line: InputLine, row: Row | undefined): boolean {
  return ['misses', 'stop', 'unsolved'].includes(gradeOf(line, row))
}

const SYMBOLS: Partial<Record<Unit, string>> = {
  ohm: 'Ω',
  volt: 'V',
  ampere: 'A',
  metre: 'm',
  decibel: 'dB',
  decibel_u: 'dBu',
  decibel_v: 'dBV',
}

function amount(value: number, unit: Unit, settings: Settings): string {
  return print(value, printing(unit, SYMBOLS[unit] ?? '', settings), settings).replace('-', '−')
}

/** A distance between two levels is no level. */
function distance(value: number, unit: Unit, settings: Settings): string {
  return amount(Math.abs(value), unit === 'decibel_u' || unit === 'decibel_v' ? 'decibel' : unit, settings)
}

/** A limit is told as one would type it. */
function bare(text: string): string {
  return text.replace(/[.,]0+(?=\D)/, '')
}

/** A figure against its limit, in words. */
export function figureText({ reading, value, unit, limit, margin }: Figure, settings: Settings): string {
  const name = say(`stage-reading-${reading.replaceAll('_', '-')}`)
  if (reading === 'supply_on_source') return say('stage-figure-on', { name })
  const number = { name, value: amount(value, unit, settings) }
  if (limit === null || margin === null) return say('stage-figure', number)
  const held = { ...number, by: distance(margin, unit, settings), limit: bare(amount(limit, unit, settings)) }
  if (margin >= 0) return say('stage-figure-kept', held)
  return say(value < limit ? 'stage-figure-short' : 'stage-figure-over', held)
}

/** What counts most about a row, in words. */
export function verdictText(line: InputLine, row: Row | undefined, settings: Settings): string {
  const grade = gradeOf(line, row)
  if (grade === 'empty') return say('stage-verdict-empty')
  if (row === undefined) return say('stage-grade-waiting')
  const [problem] = row.problems
  if (problem !== undefined) return say('stage-verdict-unsolved', { why: problem[1] })
  const shown = grade === 'watch' ? row.figures.find(({ tone }) => tone !== 'fine') : undefined
  const worst = shown ?? row.figures[row.worst ?? -1]
  const text = worst === undefined ? say('stage-verdict-no-limit') : figureText(worst, settings)
  if (grade === 'stop') return say('stage-verdict-stop', { worst: text })
  if (grade === 'watch' && shown === undefined) return say('stage-verdict-warned', { worst: text })
  const more = row.missed - 1
  return more > 0 ? say('stage-verdict-more', { worst: text, count: `${more}` }) : text
}

/** Its mark, whose meaning is read out. */
export function Mark({ grade }: { readonly grade: Grade }) {
  return (
    <span class="verdict-mark" data-grade={grade}>
      <span aria-hidden="true">{MARKS[grade]}</span>
      <span class="unseen">{say(`stage-grade-${grade}`)}: </span>
    </span>
  )
}

export function Verdict({ line, row }: { readonly line: InputLine; readonly row: Row | undefined }) {
  const settings = useStore(state => state.settings)
  const text = verdictText(line, row, settings)
  return (
    <span class="row-verdict" title={text}>
      <Mark grade={gradeOf(line, row)} />
      {text}
    </span>
  )
}

/** Half the width of a bar; its limit stands in the middle. */
const HALF = 50

/** All figures of a row against their limits. */
export function Figures({ row }: { readonly row: Row }) {
  const settings = useStore(state => state.settings)
  return (
    <ul class="figures">
      {row.figures.map(figure => (
        <li key={figure.reading} data-tone={figure.tone}>
          <span>
            <span class="verdict-mark" data-grade={toneGrade(figure)}>
              <span aria-hidden="true">{MARKS[toneGrade(figure)]}</span>
              <span class="unseen">{say(`stage-grade-${toneGrade(figure)}`)}: </span>
            </span>
            {figureText(figure, settings)}
            {figure.alone !== null && (
              <span class="hint">
                {say('stage-figure-alone', { value: amount(figure.alone, figure.unit, settings) })}
              </span>
            )}
          </span>
          {figure.share !== null && <Bar share={figure.share} />}
        </li>
      ))}
    </ul>
  )
}

function toneGrade({ tone, margin }: Figure): Grade {
  if (margin !== null && margin < 0) return 'misses'
  return tone === 'fine' ? 'fine' : 'watch'
}

/** From the limit to the right what is to spare, to the left what is missing. */
function Bar({ share }: { readonly share: number }) {
  const length = HALF * Math.min(Math.abs(share), 1)
  return (
    <svg class="figure-bar" viewBox={`0 0 ${2 * HALF} 8`} preserveAspectRatio="none" aria-hidden="true">
      <rect class="track" width={2 * HALF} height={8} />
      <rect class="length" x={share < 0 ? HALF - length : HALF} y={1} width={length} height={6} />
      <rect class="limit" x={HALF - 0.5} width={1} height={8} />
    </svg>
  )
}
