import type { Reading, Settings, Unit } from '../../generated/contract'
import { print, printing } from '../base/unit'

/** The decades that are offered for a unit, few enough for a phone; what else there is has those of a number. */
const USUAL: Partial<Record<Unit, readonly [number, number]>> = {
  ohm: [0, 7],
  hertz: [0, 6],
  farad: [-12, -5],
  henry: [-6, 1],
  volt: [-6, 2],
  ampere: [-6, 1],
  watt: [-6, 2],
  second: [-7, 0],
  metre: [-1, 4],
}
const OF_NUMBERS = [-3, 4] as const

/**
 * The powers of ten to choose from: those of the unit. What lies elsewhere has as many, one
 * set beside the other, so that what is right may stand anywhere among them.
 */
export function decadesOf({ unit, value }: Reading): number[] {
  const [first, last] = USUAL[unit] ?? OF_NUMBERS
  const count = last - first + 1
  const right = value === null || value === 0 ? first : Math.floor(Math.log10(Math.abs(value)))
  const from = first + count * Math.floor((right - first) / count)
  return Array.from({ length: count }, (_, at) => from + at)
}

/** Of units that take a prefix; those of others stand behind the number of a reading. */
const SYMBOLS: Partial<Record<Unit, string>> = {
  ohm: 'Ω',
  siemens: 'S',
  hertz: 'Hz',
  farad: 'F',
  henry: 'H',
  volt: 'V',
  volt_peak: 'V',
  volt_peak_to_peak: 'V',
  ampere: 'A',
  watt: 'W',
  second: 's',
  tesla: 'T',
}

/** `1 – 10 kΩ`. */
export function decadeText(decade: number, { unit, text }: Reading, settings: Settings): string {
  const how = printing(unit, symbolOf({ unit, text }), settings)
  const [from, to] = [decade, decade + 1].map(power => print(10 ** power, how, settings)) as [string, string]
  const [number, own] = from.split('\u00a0')
  return own === to.split('\u00a0')[1] && number !== undefined ? `${number} – ${to}` : `${from} – ${to}`
}

/** A value of the kind of a reading, as readings are printed. */
export function quantityText(value: number, reading: Reading, settings: Settings): string {
  return print(value, printing(reading.unit, symbolOf(reading), settings), settings)
}

function symbolOf({ unit, text }: Pick<Reading, 'unit' | 'text'>): string {
  return SYMBOLS[unit] ?? /\u00a0(.+)$/.exec(text)?.[1] ?? ''
}
