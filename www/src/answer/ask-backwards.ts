// How the question backwards is opened and closed.

import { shownDescription } from '../screen/descriptions'
import { isFixed } from '../screen/embed'
import { want as putWant, wantNothing } from '../screen/screen'
import { filling } from '../screen/shown'
import { embedOf, getState } from '../screen/store'

/** Where the wanted value is typed. */
export const INPUT = 'wanted'

/** Where the question was opened; nothing where a link brought it. */
let opener: HTMLElement | null = null

/** Opens the question backwards for a reading, at its button, with the field asked last. */
export function beginBackwards(reading: string, button: HTMLElement): void {
  const shown = filling()
  const known = shownDescription(getState())
  const field =
    shown?.want?.field ??
    known?.fields.find(({ id, number, detail }) => number !== null && !detail && mayChange(id))?.id ??
    ''
  opener = button
  putWant({ reading, text: '', field })
  document.getElementById(INPUT)?.focus()
}

/** Closes the question; who asked goes on where it was asked. */
export function closeBackwards(reading: string): void {
  wantNothing()
  const named = `[data-reading="${CSS.escape(reading)}"]`
  const places = [`${named} .ask`, `${named}[tabindex]`, 'h1'].map(where => document.querySelector<HTMLElement>(where))
  for (const place of [opener, ...places]) {
    place?.focus()
    // What is gone or folded away does not take it.
    if (place !== null && place === document.activeElement) break
  }
  opener = null
}

/** Whether a button that is still there opened it. */
export function wasOpenedHere(): boolean {
  return opener?.isConnected === true
}

function mayChange(id: string): boolean {
  return getState().answer?.fields[id]?.active !== false && !isFixed(embedOf(getState()), id)
}
