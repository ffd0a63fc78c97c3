// A reading of the present values, and what it is in a value set that is held.

import type { Reading, Report } from '../../generated/contract'

export function readingsOf(report: Report | null | undefined): readonly Reading[] {
  return report ? [...report.headline, ...report.further] : []
}

/** The same reading in another report, in words. */
export function textIn(report: Report | null | undefined, reading: Reading): string {
  const found = readingIn(report, reading)
  if (found === undefined) return '–'
  // A name may tell of the values too: then each tells of its own.
  return found.name === reading.name ? found.text : `${found.text} (${found.name})`
}

export function readingIn(report: Report | null | undefined, { id }: Reading): Reading | undefined {
  return readingsOf(report).find(reading => reading.id === id)
}

/** Whether one of these is told as a loss, and the other as a gain. */
export function areOpposite(one: Reading, other: Reading): boolean {
  return isTurned(one) !== isTurned(other)
}

/** What is less than nothing may be told as its opposite, without its sign. */
function isTurned({ value, text, exact }: Reading): boolean {
  // What shows as nothing has its sign all the same where all its digits are.
  return value !== null && value < 0 && !/^[-−]/.test(exact ?? text)
}
