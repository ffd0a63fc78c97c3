import { setTimeout as later } from 'node:timers/promises'

/** How long anything may take, in milliseconds: machines that test are slow. */
export const PATIENCE = 60_000

/** Waits until something holds; says what, where it never does. */
export async function until(what, holds) {
  const end = Date.now() + PATIENCE
  let last
  while (Date.now() < end) {
    try {
      last = await holds()
      if (last) return last
    } catch (error) {
      last = error
    }
    await later(100)
  }
  throw new Error(`${what}: still ${last} after ${PATIENCE / 1000} s`)
}
