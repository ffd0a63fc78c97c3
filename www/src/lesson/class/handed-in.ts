// What was handed in, as it came: kept on this device until the trainer lets it go.

import { isRecord, isText, keep, loadList, whenKeptElsewhere } from '../../base/kept'

/** One file or code. */
export interface HandedIn {
  /** The name of the file; empty for a code. */
  readonly source: string
  /** What is in it; nothing of what is too large. */
  readonly text: string
  /** How many bytes it has. */
  readonly size: number
}

/** A result of more bytes is none. */
export const LARGEST = 65_536
const KEY = 'lesson-results'

export function handedIn(): HandedIn[] {
  return loadList(KEY, isHandedIn)
}

export interface Added {
  /** How many of those were there already. */
  readonly there: number
  /** Whether the browser took the others. */
  readonly kept: boolean
}

/** Adds what is not there yet: the same file under the same name is one. */
export function addHandedIn(more: readonly HandedIn[]): Added {
  const all = handedIn()
  const before = all.length
  for (const one of more) {
    if (!all.some(other => other.text === one.text && other.source === one.source && other.size === one.size))
      all.push(one)
  }
  return { kept: keepHandedIn(all), there: more.length - (all.length - before) }
}

/** Answers whether the browser took it. */
export function keepHandedIn(all: readonly HandedIn[]): boolean {
  return keep(KEY, all)
}

/** Calls `listener` when a code was opened in another tab. */
export function whenHandedInElsewhere(listener: () => void): void {
  whenKeptElsewhere(KEY, listener)
}

function isHandedIn(value: unknown): value is HandedIn {
  return isRecord(value) && isText(value['source']) && isText(value['text']) && typeof value['size'] === 'number'
}
