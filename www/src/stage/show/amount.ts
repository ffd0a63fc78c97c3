// How numbers that are held against limits are printed, in the list and on the map.

import type { Settings, Unit } from '../../../generated/contract'
import { print, printing } from '../../base/unit'
import { say } from '../../base/words'

/** So many figures more at most tell two numbers apart. */
const MOST_MORE = 6
/** Nobody measures a greater distance than this, dB. */
export const FARTHEST = 120

/** A number with its unit, and with so many figures more than usual. */
function amountWith(value: number, unit: Unit, symbol: string, settings: Settings, more: number): string {
  const how = printing(unit, symbol, settings)
  const digits = how.digits.replace(/\d+/, count => `${Number(count) + more}`)
  return print(value, { ...how, digits }, settings).replace('-', '−')
}

/** The same with as many as it takes to be told from another number, or from nothing. */
export function amount(
  value: number,
  unit: Unit,
  symbol: string,
  settings: Settings,
  apart: number | null = null,
): string {
  const text = (value: number, more: number) => amountWith(value, unit, symbol, settings, more)
  if (apart === null || value === apart) return text(value, 0)
  let more = 0
  while (more < MOST_MORE && text(value, more) === text(apart, more)) more += 1
  return text(value, more)
}

/** How far a signal is from what disturbs it, told apart from its limit. */
export function distance(value: number, settings: Settings, limit: number | null = null): string {
  if (value > FARTHEST) return say('stage-figure-above', { value: `${FARTHEST}\u00a0dB` })
  const isMissed = limit !== null && value < limit
  return amount(value, 'decibel', 'dB', settings, isMissed ? limit : null)
}
