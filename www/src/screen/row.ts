// The row of the input list that is looked at as a whole line, so that there is a way
// back. It lasts as long as its tab, where the browser keeps it; else as long as the page.

import type { Settings } from '../../generated/contract'
import type { Texts } from './link'

export interface SeenRow {
  /** The line of the show. */
  readonly id: string
  /** What the bar says, in the words of the stage, which may not be there when it is shown. */
  readonly words: { readonly of: string; readonly alone: string; readonly back: string; readonly put: string }
  /** The values that it shall have, once the reader wants that, and how they are written. */
  readonly texts: Texts | null
  readonly settings: Settings | null
}

const KEY = 'stageohm.row'

let row: SeenRow | null | undefined

export function seenRow(): SeenRow | null {
  row ??= load()
  return row
}

export function seeRow(next: SeenRow | null): void {
  row = next
  try {
    if (next === null) sessionStorage.removeItem(KEY)
    else sessionStorage.setItem(KEY, JSON.stringify(next))
  } catch {
    // Refused.
  }
}

function load(): SeenRow | null {
  try {
    // By our own hand, in this very tab.
    return JSON.parse(sessionStorage.getItem(KEY) ?? 'null') as SeenRow | null
  } catch {
    return null
  }
}
