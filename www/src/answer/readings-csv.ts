// The answer as a table for a spreadsheet: what was put in, then all readings,
// and a column more for each held value set.

import {
  constants,
  type Description,
  type Echo,
  type Reading,
  type Report,
  type Settings,
} from '../../generated/contract'
import { csvOf, type Cell } from '../base/csv'
import { areOpposite, readingIn, readingsOf } from './compared'
import { setNames } from '../plot/curves'
import { isHidden, type Embed } from '../screen/embed'
import type { Good, Held } from '../screen/store'
import { say } from '../base/words'

interface Properties {
  readonly description: Description
  readonly good: Good
  readonly held: readonly Held[]
  readonly settings: Settings
  readonly embed: Embed | null
}

/** A text as it is shown, and whether it is a number with a unit. */
interface Shown {
  readonly text: string
  readonly isNumber: boolean
}

export function readingsCsv({ description, good, held, settings, embed }: Properties): string {
  const row = (name: string, own: Shown, verdict: string, others: readonly (Shown | undefined)[]): Cell[] => {
    const [value, unit] = own.isNumber ? parted(own.text) : ['', own.text]
    return [name, value, unit, verdict, ...others.map(other => inUnit(other, unit))]
  }
  const fields = description.fields.filter(({ id }) => good.fields[id]?.active && !isHidden(embed, id))
  const inputs = fields.map(field => {
    const of = (echoes: Readonly<Record<string, Echo>>) => inputOf(field, echoes[field.id])
    return row(
      field.name,
      of(good.fields) ?? { text: '', isNumber: false },
      '',
      held.map(({ fields }) => of(fields)),
    )
  })
  const readings = readingsOf(good.report).map(reading => {
    const others = held.map(({ report }) => shownIn(report, reading))
    return row(reading.name, shown(reading), reading.verdict?.text ?? '', others)
  })
  const ways = good.report.ranking.flatMap(({ name, verdict, reasons }) => [
    [name, '', '', verdict.text],
    ...reasons.map(({ reading }) => row(`${name}: ${reading.name}`, shown(reading), reading.verdict?.text ?? '', [])),
  ])
  const names = held.length > 0 ? setNames(description, good, held).slice(1) : []
  const head = ['name', 'value', 'unit', 'verdict'].map(key => say(`further-${key}`))
  return csvOf([[...head, ...names.map(lines => lines.join(', '))], ...inputs, ...readings, ...ways], settings)
}

function inputOf({ choice }: Description['fields'][0], echo: Echo | undefined): Shown | undefined {
  if (echo === undefined || !echo.active) return undefined
  const chosen = choice?.options.find(({ id }) => id === echo.text)?.name
  return { text: chosen ?? (echo.text || say('absent')), isNumber: choice === null && echo.text !== '' }
}

/** A loss is less than nothing in a row that is named a gain, and the other way round. */
function shownIn(report: Report | null, reading: Reading): Shown | undefined {
  const found = readingIn(report, reading)
  if (found === undefined) return undefined
  const { text, isNumber } = shown(found)
  return { text: areOpposite(found, reading) ? negative(text) : text, isNumber }
}

function negative(text: string): string {
  return /^[-−]/.test(text) ? text.slice(1) : `−${text}`
}

function shown({ text, exact, value }: Reading): Shown {
  return { text: exact ?? text, isNumber: value !== null }
}

/** A printed number for a spreadsheet, and its unit beside it. */
function parted(text: string): [string, string] {
  const [, number = text, unit = ''] = /^([^\s\u00a0]+)[\s\u00a0]?(.*)$/.exec(text) ?? []
  return [number.replace('\u2212', '-'), unit]
}

/** A number in the unit of its row, whatever prefix it was printed with; else as it was printed. */
function inUnit(shown: Shown | undefined, unit: string): Cell {
  if (shown === undefined) return ''
  if (!shown.isNumber) return shown.text
  const [number, own] = parted(shown.text)
  if (own === unit) return number
  const prefixes = [...constants.prefixes, { symbol: '', size: 1 }]
  const taken = (text: string) =>
    prefixes.flatMap(({ symbol, size }) => (text.startsWith(symbol) ? [{ size, bare: text.slice(symbol.length) }] : []))
  for (const from of taken(own)) {
    const to = taken(unit).find(({ bare }) => bare === from.bare && bare !== '')
    const value = Number(number.replace(',', '.'))
    if (to !== undefined && Number.isFinite(value)) return Number(((value * from.size) / to.size).toPrecision(9))
  }
  return shown.text
}
