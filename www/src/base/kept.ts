// What the page keeps in this browser, a text for each key. Where the browser
// refuses, it lasts as long as the page is open.

import { areTexts, isRecord, isText } from './shape'

export { areTexts, isRecord, isText }

const PREFIX = 'stageohm.'
/** Under this key lies what could not be read, until the reader lets it go. */
const DAMAGED = 'damaged'
/** What the browser did not take; null for what it did not let go of. */
const memory = new Map<string, string | null>()
/** What was not read and found no other place: it lies under its own key, where nothing replaces it. */
const unread = new Map<string, string>()
let told: (() => void) | null = null
let toldRefused: (() => void) | null = null

/** What is kept under a key and is good; null where nothing is. */
export function load<T>(key: string, isGood: (value: unknown) => value is T): T | null {
  const raw = read(key)
  if (raw === null) return null
  const value = parsed(raw)
  if (isGood(value)) return value
  setAside(key, raw, raw, null)
  return null
}

/** The same before the page can tell of anything: what is not good stays for `load`. */
export function peek<T>(key: string, isGood: (value: unknown) => value is T): T | null {
  const value = parsed(read(key) ?? '')
  return isGood(value) ? value : null
}

/** The good ones of a list that is kept under a key. */
export function loadList<T>(key: string, isGood: (item: unknown) => item is T): T[] {
  const raw = read(key)
  if (raw === null) return []
  const value = parsed(raw)
  const items: unknown[] = Array.isArray(value) ? value : []
  const good = items.filter(isGood)
  if (value === items && good.length === items.length) return good
  // A text that is not as the page writes it may say more than what was made of it.
  const isOurs = value === items && written(items) === raw
  setAside(key, raw, isOurs ? JSON.stringify(items.filter(item => !isGood(item))) : raw, good)
  return good
}

/** Answers whether the browser took it. */
export function keep(key: string, value: unknown): boolean {
  return write(key, JSON.stringify(value))
}

/** Keeps what the reader chose, who is told where that cannot be. */
export function keepChoice(key: string, value: unknown): void {
  if (!keep(key, value)) toldRefused?.()
}

/** What was kept and could not be read, for the reader to rescue. */
export function damaged(): string[] {
  loadList(DAMAGED, isText)
  // What cannot be read of these themselves is one of them now.
  return loadList(DAMAGED, isText)
}

export function dropDamaged(): void {
  drop(DAMAGED)
  for (const key of unread.keys()) {
    const newer = read(key)
    if (!unread.delete(key)) continue
    // What was chosen since takes its place.
    if (newer === null) drop(key)
    else write(key, newer)
  }
}

/** Calls `listener` whenever something cannot be read. */
export function whenDamaged(listener: () => void): () => void {
  told = listener
  return () => {
    told = null
  }
}

/** Calls `listener` whenever a choice is not kept. */
export function whenRefused(listener: () => void): () => void {
  toldRefused = listener
  return () => {
    toldRefused = null
  }
}

/** Calls `listener` when another tab kept something under a key. */
export function whenKeptElsewhere(key: string, listener: () => void): void {
  addEventListener('storage', event => event.key === PREFIX + key && listener())
}

function parsed(raw: string): unknown {
  try {
    return JSON.parse(raw)
  } catch {
    // Not even a text of ours.
    return undefined
  }
}

/** What is nested too deep to be written is none of ours. */
function written(value: unknown): string | null {
  try {
    return JSON.stringify(value)
  } catch {
    return null
  }
}

function read(key: string): string | null {
  const text = stored(key)
  // Another tab found a place for it.
  if (unread.has(key) && unread.get(key) !== text) {
    unread.delete(key)
    memory.delete(key)
  }
  const newer = memory.get(key)
  return newer === undefined ? text : newer
}

function stored(key: string): string | null {
  try {
    return localStorage.getItem(PREFIX + key)
  } catch {
    return null
  }
}

function write(key: string, raw: string): boolean {
  try {
    if (!unread.has(key)) {
      localStorage.setItem(PREFIX + key, raw)
      memory.delete(key)
      return true
    }
  } catch {
    // Refused, or full.
  }
  memory.set(key, raw)
  return false
}

/** Lays what is not read of a text with the other damaged ones, once; what is good of it stays. */
function setAside(key: string, raw: string, bad: string, good: unknown[] | null): void {
  const isOne = key === DAMAGED
  const others = isOne ? (good ?? []) : damaged()
  const taken = keep(DAMAGED, [...new Set([...others, `${key} = ${bad}`])])
  if (!taken) unread.set(key, raw)
  if (!isOne) {
    if (good !== null) keep(key, good)
    else if (taken) drop(key)
    else memory.set(key, null)
  }
  told?.()
}

function drop(key: string): void {
  memory.delete(key)
  try {
    localStorage.removeItem(PREFIX + key)
  } catch {
    // Refused.
  }
  // What it holds on to all the same is not read again.
  if (read(key) !== null) memory.set(key, null)
}
