// Keeps the screen from sleeping while the reader wants it, as on a stage.

import { keep, load } from './kept'

let wanted = false
let lock: WakeLockSentinel | null = null

/** Whether this browser can, here: it wants https or the machine itself. */
export const canStayAwake = 'wakeLock' in navigator

export function wantsAwake(): boolean {
  return wanted
}

/** Begins as it was left. */
export function beginAwake(): void {
  wanted = load('awake', isTruth) ?? false
  void ask()
}

export async function setAwake(on: boolean): Promise<void> {
  wanted = on
  keep('awake', on)
  if (on) return ask()
  await lock?.release()
  lock = null
}

/** The browser lets go of it whenever the page is hidden. */
async function ask(): Promise<void> {
  if (!wanted || !canStayAwake || document.visibilityState !== 'visible' || lock?.released === false) return
  try {
    lock = await navigator.wakeLock.request('screen')
  } catch {
    // Refused, as with little battery left: the screen sleeps as it used to.
  }
}

document.addEventListener('visibilitychange', () => void ask())

function isTruth(value: unknown): value is boolean {
  return typeof value === 'boolean'
}
