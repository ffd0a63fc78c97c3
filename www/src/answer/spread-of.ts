import type { Reading, ReadingSpread, Spread } from '../../generated/contract'

/** What tolerances make of a reading. */
export function spreadOf(spread: Spread | null, reading: Reading): ReadingSpread | undefined {
  return spread?.readings.find(({ id }) => id === reading.id)
}
