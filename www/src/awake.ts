// Keeps the screen from sleeping while the reader wants it, as on a stage.

import { keepChoice, load } from './base/kept'

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

/** Answers whether the browser does as it is asked. */
export async function setAwake(on: boolean): Promise<boolean> {
  wanted = on
  keepChoice('awake', on)
  if (on) return ask()
  await letGo()
  return true
}

/** The browser lets go of it whenever the page is hidden. */
async function ask(): Promise<boolean> {
  if (!wanted || !canStayAwake || document.visibilityState !== 'visible' || lock?.released === false) return true
  try {
    lock = await navigator.wakeLock.request('screen')
    // Meanwhile the reader may have thought better of it.
    if (!wanted) await letGo()
    return true
  } catch {
    // As with little battery left: the screen sleeps as it used to.
    return false
  }
}

async function letGo(): Promise<void> {
  await lock?.release()
  lock = null
}

document.addEventListener('visibilitychange', () => void ask())

function isTruth(value: unknown): value is boolean {
  return typeof value === 'boolean'
}
