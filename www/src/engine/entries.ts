// What there is to look up, asked of the whole engine once it is wanted: a link that
// opens a calculator need not wait for it. Until it has come there is nothing.

import type { LookUpEntry, Settings } from '../../generated/contract'
import { isWhole, lookUp } from './engine'

let known: { readonly settings: Settings; readonly entries: readonly LookUpEntry[] } | null = null

export function entriesFor(settings: Settings): readonly LookUpEntry[] {
  if (!isWhole()) return []
  if (known?.settings !== settings) known = { settings, entries: lookUp(settings) }
  return known.entries
}

export function entryOf(id: string, settings: Settings): LookUpEntry | undefined {
  return entriesFor(settings).find(entry => entry.id === id)
}
