// What of a report is heard.

import type { Report } from '../../generated/contract'
import type { HearingSide, RigSound } from '../engine/hearing'

/** The plot with what a rig does to the tone. */
const RESPONSE = 'response'

/** A source that goes through no rig. */
export const ALONE: HearingSide = { response: null, sound: null }

/** A rig as it is heard, by this curve or the first that is its own. */
export function sideOf(report: Report, curve = ''): HearingSide {
  const plot = report.plots.find(({ id }) => id === RESPONSE)
  const trace = plot?.traces.find(({ id, reference }) => (curve === '' ? !reference : id === curve))
  return { response: trace === undefined ? null : { hz: trace.x, db: trace.y }, sound: report.sound }
}

/** Whether there is anything to hear of it. */
export function isHeard(report: Report): boolean {
  return report.sound !== null || report.plots.some(({ id }) => id === RESPONSE)
}

/** All lines of hum together, against the signal, in decibels; nothing where there is none. */
export function humOf({ hum }: RigSound): number | null {
  const power = hum.reduce((sum, { db }) => sum + 10 ** (db / 10), 0)
  return power > 0 ? 10 * Math.log10(power) : null
}
