// What is on the screen now.

import type { Description } from '../../generated/contract'
import * as address from './address'
import { shownDescription } from './descriptions'
import { linkOf, type Filling, type Texts } from './link'
import { getState, type State } from './store'
import { tidy } from './translate'

/** What the address that was opened filled in. */
let opened: Filling | null = null

/** Remembers what an address filled in, to go back to it. */
export function setOpened(filling: Filling | null): void {
  opened = filling
}

export function openedFilling(): Filling | null {
  return opened
}

/** The filling on the screen, if it is that of a calculator. */
export function filling(): Filling | null {
  const { place } = getState()
  return place.kind === 'calculator' ? place.filling : null
}

export function description(): Description | undefined {
  return shownDescription(getState())
}

/**
 * The address of the screen as it is, ahead of the address bar, which in some
 * frames does not follow; that which it had before where it is too much for one.
 */
export function currentHash(): string {
  const shown = filling()
  return (shown === null ? null : linkOf(shown, getState().settings)) ?? address.last()
}

/** The text of a field: what was typed, else its default as it reads among the others. */
export function textOf(id: string, texts: Texts, { answer, blank }: Pick<State, 'answer' | 'blank'>): string {
  return texts[id] ?? tidy((answer?.fields[id] ?? blank[id])?.text ?? '')
}

/** Whether there is anything to go back from. */
export function isChanged({ place }: State): boolean {
  if (place.kind !== 'calculator') return false
  const { current, embed } = place.filling
  return embed === null ? Object.keys(current).length > 0 : current !== opened?.current
}
