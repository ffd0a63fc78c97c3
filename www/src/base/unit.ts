// How numbers are printed where the page itself prints them: on axes, at the
// finger, in the tables beside plots, and where a slider stops on a round number.

import { tickStep } from 'd3-array'
import { format } from 'd3-format'
import { constants, type Axis, type NumberDescription, type Settings, type Unit } from '../../generated/contract'

/** The least and the most that a number on an axis of decades may be, in its unit with a prefix. */
const [LEAST, MOST] = [0.01, 1e4]

/** How a unit is printed: `(value − zero) / size`, then the symbol. */
export interface Printing {
  readonly size: number
  readonly zero: number
  readonly symbol: string
  /** Digits in the manner of d3-format. */
  readonly digits: string
  /** The same for the ticks of an axis. */
  readonly ticks: string
}

export function printing(unit: Unit, symbol: string, settings: Settings): Printing {
  const { levels, printed, shown } = constants
  const prefixed = takesPrefix(unit)
  const level = `.${shown - 2}f`
  const digits = levels.includes(unit) || unit === 'degree' ? level : `.${shown}~${prefixed ? 's' : 'r'}`
  const ticks = prefixed ? '~s' : '~f'
  const otherwise = printed.find(printed => printed.unit === unit && printed.length === settings.length)
  return { size: 1, zero: 0, symbol, ...otherwise, digits, ticks }
}

export function takesPrefix(unit: Unit): boolean {
  return !constants.levels.includes(unit) && !constants.without_prefix.includes(unit)
}

/**
 * The printing along an axis: one prefix for all its numbers, which stands with
 * the unit. On an axis of decades that reaches the unit itself, or spans too
 * many, each number has its own, as in `20` to `20k`.
 */
export function axisPrinting({ unit, symbol, log }: Axis, from: number, to: number, settings: Settings): Printing {
  const how = printing(unit, symbol, settings)
  if (how.ticks !== '~s') return how
  const [least, most] = [from / how.size, to / how.size]
  const power = 3 * Math.floor(Math.log10(Math.max(-least, most)) / 3 + 1e-9)
  const fits = (power: number) => !log || (least > 0.99 * LEAST * 10 ** power && most < 1.01 * MOST * 10 ** power)
  const chosen = [power, power - 3].find(fits) ?? 0
  if (!Number.isFinite(chosen) || chosen === 0 || (log && chosen > 0)) return how
  const size = 10 ** chosen
  const prefix = format('~s')(size).replace('1', '')
  return {
    ...how,
    size: how.size * size,
    symbol: `${prefix}${how.symbol}`,
    digits: `.${constants.shown}~r`,
    ticks: '~f',
  }
}

export function toPrinted(value: number, { size, zero }: Printing): number {
  return (value - zero) / size
}

export function fromPrinted(value: number, { size, zero }: Printing): number {
  return value * size + zero
}

/** A number of an SI unit, printed with its unit; a dash where there is none. */
export function print(value: number, how: Printing, settings: Settings): string {
  if (!Number.isFinite(value)) return '–'
  const text = withSign(format(how.digits)(toPrinted(value, how)), settings)
  const [, number = text, prefix = ''] = /^(.*?\d)([a-zA-Zµ]?)$/.exec(text) ?? []
  const symbol = `${prefix}${how.symbol}`
  if (symbol === '') return number
  return /^[:°]/.test(symbol) ? `${number}${symbol}` : `${number}\u00a0${symbol}`
}

/** A number's text with the reader's decimal sign. */
export function withSign(text: string, settings: Settings): string {
  return settings.decimal === 'comma' ? text.replace('.', ',') : text
}

/** The nearest value that is round as printed. */
export function round(value: number, number: NumberDescription, settings: Settings): number {
  const how = printing(number.unit, '', settings)
  const printed = toPrinted(value, how)
  if (number.log) return fromPrinted(Number(printed.toPrecision(3)), how)
  const step = tickStep(toPrinted(number.usual_from, how), toPrinted(number.usual_to, how), 200)
  const rounded = Number((Math.round(printed / step) * step).toPrecision(12))
  return Math.min(Math.max(fromPrinted(rounded, how), number.least), number.most)
}
