// What the reader chooses for the whole page, and what is kept of it.

import type { Settings } from '../../generated/contract'
import { follow, refresh, showBlank } from './asking'
import { noteBeginning, type Beginning } from './saved-page'
import { keepPreferences } from './settings'
import { getState, setState } from './store'
import { showTheme, type Theme } from './theme'
import { translated } from './translate'

/** Keeps what Save As takes along at what is on the screen. */
export function note(more: Partial<Beginning> = {}): void {
  const { settings, theme, working } = getState()
  noteBeginning({ settings, theme, working, ...more })
}

export function showWorking(working: boolean): void {
  setState({ working })
  note()
  if (working) refresh()
}

export function setTheme(theme: Theme): void {
  keepPreferences({ theme })
  followTheme(theme)
}

/** Goes on in a theme that is kept already. */
export function followTheme(theme: Theme): void {
  setState({ theme })
  showTheme(theme)
  note()
}

/** Changes the settings; what was typed keeps its meaning. */
export function setSettings(change: Partial<Settings>): void {
  keepPreferences(change)
  followSettings({ ...getState().settings, ...change })
}

/** The same with settings: what nobody chose is not kept by that either. */
export function followSettings(to: Settings): void {
  const { settings: from, place } = getState()
  setState({ settings: to, held: [] })
  note()
  if (place.kind !== 'calculator') return
  // Mains that nobody chose are those where the reader works, also when that changes.
  setState({ place: translated(place, { ...from, mains: to.mains }, to) })
  showBlank()
  refresh()
  follow()
}
