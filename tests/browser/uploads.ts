// What a host has while files are being uploaded, or after an upload that broke
// off: each file of a new version old, new, missing or cut short.

import type { Files } from './host'

export const STATES = ['old', 'missing', 'cut'] as const
export type State = (typeof STATES)[number]

/** The new version where some of its files are not as they should be. */
export function uploaded(before: Files, after: Files, states: Readonly<Record<string, State>>): Files {
  const files = new Map(after)
  for (const [name, state] of Object.entries(states)) {
    const whole = after.get(name)
    files.delete(name)
    if (state === 'cut' && whole !== undefined) files.set(name, whole.subarray(0, whole.length >> 1))
    const old = before.get(name) ?? before.get(counterpart(name, before))
    // A name that changes with each version has its old file under the old name.
    if (state === 'old' && old !== undefined) files.set(counterpart(name, before), old)
  }
  return files
}

/** Each of these files alone in each bad state, then each pair of them. */
export function* mishaps(names: readonly string[]): Generator<Record<string, State>> {
  for (const [at, first] of names.entries()) {
    for (const one of STATES) {
      yield { [first]: one }
      for (const second of names.slice(at + 1)) for (const other of STATES) yield { [first]: one, [second]: other }
    }
  }
}

/** The name of the same file in another version. */
function counterpart(name: string, files: Files): string {
  const base = (name: string) => name.replace(/-[0-9a-f]{16}(?=[._])/, '')
  return [...files.keys()].find(other => base(other) === base(name)) ?? name
}
