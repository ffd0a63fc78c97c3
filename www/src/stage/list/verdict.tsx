// What is made of a row: a mark, and its worst figure in words.

import type { Figure, InputLine, Row, Settings, Unit } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { amount, distance, FARTHEST } from '../show/amount'

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

/** A number, told apart from its limit where it misses that. */
function told(value: number, unit: Unit, settings: Settings, apart: number | null = null): string {
  return unit === 'decibel'
    ? distance(value, settings, apart)
    : amount(value, unit, SYMBOLS[unit] ?? '', settings, apart)
}

/** By how much a limit is kept or missed, never by nothing; a distance between two levels is no level. */
function marginText(margin: number, unit: Unit, settings: Settings): string {
  const of = unit === 'decibel_u' || unit === 'decibel_v' ? 'decibel' : unit
  return amount(Math.abs(margin), of, SYMBOLS[of] ?? '', settings, margin < 0 ? 0 : null)
}

/** Whether a limit is kept by less than anybody would measure. */
function isNext(margin: number, unit: Unit): boolean {
  return unit.startsWith('decibel') && margin < 0.05
}

/** A limit is told as one would type it. */
function bare(text: string): string {
  return text.replace(/[.,]0+(?=\D)/, '')
}

/** What is printed as no loss is none. */
const NO_LOSS = 0.05

/** A loss that is none is told as what comes up. */
function gainText({ reading, value }: Figure, settings: Settings): string | null {
  const isGain = (reading === 'loss' || reading === 'loss_bass') && value <= -NO_LOSS
  const name = say(`stage-gain-${reading.replaceAll('_', '-')}`)
  return isGain ? say('stage-figure', { name, value: told(-value, 'decibel', settings) }) : null
}

/** What a figure is called. */
export function nameOf({ reading }: Pick<Figure, 'reading'>): string {
  return say(`stage-reading-${reading.replaceAll('_', '-')}`)
}

/** A figure against its limit, in words. */
export function figureText(figure: Figure, settings: Settings): string {
  const { reading, unit, limit, margin } = figure
  const name = nameOf(figure)
  if (reading === 'supply_on_source' || reading === 'phantom_on_ribbon') return say('stage-figure-on', { name })
  const gain = gainText(figure, settings)
  if (gain !== null) return gain
  const value = reading.startsWith('loss') ? Math.max(figure.value, 0) : figure.value
  const number = { name, value: told(value, unit, settings, margin !== null && margin < 0 ? limit : null) }
  if (limit === null || margin === null) return say('stage-figure', number)
  const isFar = unit === 'decibel' && value > FARTHEST
  const by = isFar
    ? say('stage-figure-above', { value: bare(told(FARTHEST - limit, unit, settings)) })
    : marginText(margin, unit, settings)
  const held = { ...number, by, limit: bare(told(limit, unit, settings)) }
  if (reading === 'load_ratio') return say(margin < 0 ? 'stage-figure-load-short' : 'stage-figure-load', held)
  if (margin >= 0) return say(isNext(margin, unit) ? 'stage-figure-just' : 'stage-figure-kept', held)
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
  const others = row.figures.filter(figure => figure !== worst && (figure.margin ?? 0) < 0)
  return others.length > 0 ? say('stage-verdict-more', { worst: text, others: others.map(nameOf).join(', ') }) : text
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
                {say('stage-figure-alone', { value: told(figure.alone, figure.unit, settings) })}
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
