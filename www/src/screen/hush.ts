// What a lesson hides is in none of its sentences: answers are gone through before
// anybody sees them. The readings stay, since they are what is to be learned from.

import type { Answer, Description, Echo, Report, Trace } from '../../generated/contract'
import { isHidden, mayTell, type Embed } from './embed'

/** In the place of what is hidden. */
const MASK = '…'
/** What says no more than it is, and numbers. */
const KEPT = new Set(['id', 'unit', 'symbol', 'tone', 'calculator', 'values', 'value', 'x', 'y', 'stops'])
/** An answer of a choice with fewer letters is a word of every sentence. */
const FEWEST = 5
/** Two numbers this near, as a part of one, print alike in three figures. */
const NEAR = 0.005

type Hush = (text: string) => string

/** The answer without what the lesson hides; as it is where it hides nothing. */
export function hushed(answer: Answer, embed: Embed | null, description: Description | undefined): Answer {
  if (mayTell(embed) || answer.report === null || description === undefined) return answer
  const hush = hushOf(answer.fields, embed, description)
  const values = description.fields.flatMap(({ id }) => {
    const value = isHidden(embed, id) ? answer.fields[id]?.value : null
    return value === null || value === undefined ? [] : [value]
  })
  const plots = answer.report.plots.map(plot => ({ ...plot, traces: plot.traces.filter(it => !isAt(it, values)) }))
  return { ...answer, report: reportOf({ ...answer.report, plots }, hush) }
}

/** Whether a curve is a straight line at one of these values, such as a limit that is hidden. */
function isAt({ x, y }: Trace, values: readonly number[]): boolean {
  const isAll = (numbers: readonly number[], value: number) => numbers.every(number => number === value)
  return values.some(value => isAll(x, value) || isAll(y, value))
}

/** Takes the hidden values out of a text. */
function hushOf(fields: Answer['fields'], embed: Embed | null, { fields: described }: Description): Hush {
  const hidden = described.filter(({ id }) => isHidden(embed, id) && fields[id]?.active !== false)
  const masks = hidden.flatMap(({ id, choice }): Hush[] => {
    const echo = fields[id]
    if (echo === undefined) return []
    if (choice === null) return [quantityMask(echo)]
    const name = choice.options.find(option => option.id === echo.text)?.name ?? ''
    return name.length < FEWEST ? [] : [text => text.replace(new RegExp(escaped(name), 'giu'), MASK)]
  })
  return text => masks.reduce((text, mask) => mask(text), text)
}

/** The same number in the same unit, however many figures it is printed with. */
function quantityMask({ text: told }: Echo): Hush {
  const [, number = '', unit = ''] = /^([-−]?[\d.,]+)[\s\u00a0]*(.*)$/u.exec(told) ?? []
  const value = numberOf(number)
  if (!Number.isFinite(value)) return text => text
  const end = unit === '' ? '(?![\\s\\u00a0]?[\\p{L}%°])' : `[\\s\\u00a0]?${escaped(unit)}(?![\\p{L}\\d])`
  const all = new RegExp(`(?<![\\p{L}\\d.,])([-−]?\\d+(?:[.,]\\d+)?)${end}`, 'gu')
  return text =>
    text.replace(all, (whole: string, found: string) =>
      Math.abs(numberOf(found) - value) <= NEAR * Math.abs(value) ? MASK : whole,
    )
}

function numberOf(text: string): number {
  return text === '' ? NaN : Number(text.replace('−', '-').replace(',', '.'))
}

function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
}

/**
 * The working goes without numbers: from one of them that depends on a hidden
 * value the value itself can be worked out. Links would carry it along.
 */
function reportOf(report: Report, hush: Hush): Report {
  const working = report.working.map(step => ({ ...step, numbers: '', numbers_mathml: '', result: '' }))
  const { working: _, links: __, cautions, ...others } = report
  return { ...mapped(others, hush), working, links: [], cautions }
}

function mapped<T>(value: T, hush: Hush): T {
  if (typeof value === 'string') return hush(value) as T
  if (Array.isArray(value)) return value.map((item: unknown) => mapped(item, hush)) as T
  if (typeof value !== 'object' || value === null) return value
  const isReading = 'value' in value && 'verdict' in value
  const entries = Object.entries(value).map(([key, item]): [string, unknown] => [
    key,
    KEPT.has(key) || (isReading && key === 'text') ? item : mapped(item, hush),
  ])
  return Object.fromEntries(entries) as T
}
