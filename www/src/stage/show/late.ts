// The last state of a show, written at once while the page goes away: the browser may
// end it before the database has answered. It is taken over when the page opens again.

import { isRecord, isText } from '../../base/shape'
import type { Slot, Stamp } from './slot'

/** A state that may not have come into the database, and the one that it follows. */
export interface Late {
  readonly slot: Slot
  readonly base: Stamp | null
}

const PREFIX = 'stageohm.stage-late.'

/** One for each tab, or one would write over another's. */
const tab = `${Date.now().toString(36)}${Math.random().toString(36).slice(2, 8)}`

/** Answers whether the browser took it. */
export function putLate(late: Late): boolean {
  try {
    localStorage.setItem(PREFIX + tab, JSON.stringify(late))
    return true
  } catch {
    return false
  }
}

export function dropLate(key = PREFIX + tab): void {
  try {
    localStorage.removeItem(key)
  } catch {
    // Refused.
  }
}

/** What was left by pages that went away, each with its key; a text that is none of ours as such. */
export function allLate(): { readonly key: string; readonly late: Late | null; readonly text: string }[] {
  try {
    return Object.keys(localStorage)
      .filter(key => key.startsWith(PREFIX))
      .map(key => {
        const text = localStorage.getItem(key) ?? ''
        return { key, text, late: readLate(text) }
      })
  } catch {
    return []
  }
}

function readLate(text: string): Late | null {
  try {
    const late: unknown = JSON.parse(text)
    if (!isRecord(late) || !isRecord(late['slot'])) return null
    const { id, number, text: kept, check } = late['slot']
    const whole = isText(id) && typeof number === 'number' && isText(kept) && isText(check)
    return whole ? (late as unknown as Late) : null
  } catch {
    return null
  }
}
