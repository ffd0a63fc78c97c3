// What there is to look up, asked of the engine once it is wanted: a link that
// opens a calculator need not wait for it.

import type { LookUpEntry, Settings } from '../../generated/contract'
import { lookUp } from './engine'

let known: { readonly settings: Settings; readonly entries: readonly LookUpEntry[] } | null = null

export function entriesFor(settings: Settings): readonly LookUpEntry[] {
  if (known?.settings !== settings) known = { settings, entries: lookUp(settings) }
  return known.entries
}

export function entryOf(id: string, settings: Settings): LookUpEntry | undefined {
  return entriesFor(settings).find(entry => entry.id === id)
}
