// The rig of a lesson for which values are looked for on a calculator. It lasts as long
// as its tab, where the browser keeps it; else as long as the page.

import type { LessonRig } from '../../generated/contract'

export interface RigWanted {
  /** The lesson. */
  readonly lesson: string
  /** The place of its step, from 0 on; nothing for the rig of all of it. */
  readonly step: number | null
  /** What the bar says, in the words of the lessons, which may not be there when it is shown. */
  readonly words: { readonly of: string; readonly take: string; readonly back: string }
  /** What was found. */
  readonly taken: LessonRig | null
}

const KEY = 'stageohm.rig-wanted'

let wanted: RigWanted | null | undefined

export function rigWanted(): RigWanted | null {
  wanted ??= load()
  return wanted
}

export function wantRig(next: RigWanted | null): void {
  wanted = next
  try {
    if (next === null) sessionStorage.removeItem(KEY)
    else sessionStorage.setItem(KEY, JSON.stringify(next))
  } catch {
    // Refused.
  }
}

function load(): RigWanted | null {
  try {
    // By our own hand, in this very tab.
    return JSON.parse(sessionStorage.getItem(KEY) ?? 'null') as RigWanted | null
  } catch {
    return null
  }
}
