import type { Reading, Settings, Unit } from '../../generated/contract'
import { print, printing } from '../base/unit'

/** The decades that are offered for a unit; what else there is has those of a number. */
const USUAL: Partial<Record<Unit, readonly [number, number]>> = {
  ohm: [0, 7],
  hertz: [0, 6],
  farad: [-12, -5],
  henry: [-6, 1],
  volt: [-6, 2],
  ampere: [-9, 1],
  watt: [-9, 2],
  second: [-9, 0],
  metre: [-1, 4],
}
const OF_NUMBERS = [-3, 4] as const

/** The powers of ten to choose from: wide around what is right, so that they do not give it away. */
export function decadesOf({ unit, value }: Reading): number[] {
  const [first, last] = USUAL[unit] ?? OF_NUMBERS
  const right = value === null || value === 0 ? first : Math.floor(Math.log10(Math.abs(value)))
  // One that lies outside is not to be the end of the list either.
  const from = right < first ? right - 2 : first
  const to = right > last ? right + 2 : last
  return Array.from({ length: to - from + 1 }, (_, at) => from + at)
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
