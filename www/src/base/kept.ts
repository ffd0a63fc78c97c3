// What the page keeps in this browser, a text for each key. Where the browser
// refuses, it lasts as long as the page is open.

const PREFIX = 'stageohm.'
/** Under this key lies what could not be read, until the reader lets it go. */
const DAMAGED = 'damaged'
/** What the browser did not take; null for what it did not let go of. */
const memory = new Map<string, string | null>()
let told: (() => void) | null = null
let toldRefused: (() => void) | null = null

/** What is kept under a key and is good; null where nothing is. */
export function load<T>(key: string, isGood: (value: unknown) => value is T): T | null {
  const raw = read(key)
  if (raw === null) return null
  try {
    const value: unknown = JSON.parse(raw)
    if (isGood(value)) return value
  } catch {
    // Not even a text of ours.
  }
  drop(key)
  // Once, also where the browser does not let go of it.
  if (!keep(DAMAGED, [...new Set([...damaged(), `${key} = ${raw}`])])) putBack(key, raw)
  told?.()
  return null
}

/** Answers whether the browser took it. */
export function keep(key: string, value: unknown): boolean {
  const raw = JSON.stringify(value)
  try {
    localStorage.setItem(PREFIX + key, raw)
    memory.delete(key)
    return true
  } catch {
    // Refused, or full.
    memory.set(key, raw)
    return false
  }
}

/** Keeps what the reader chose, who is told where that cannot be. */
export function keepChoice(key: string, value: unknown): void {
  if (!keep(key, value)) toldRefused?.()
}

/** What was kept and could not be read, for the reader to rescue. */
export function damaged(): string[] {
  // What cannot be read of these themselves is one of them then.
  return load(DAMAGED, areTexts) ?? load(DAMAGED, areTexts) ?? []
}

export function dropDamaged(): void {
  drop(DAMAGED)
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

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

export function areTexts(value: unknown): value is string[] {
  return Array.isArray(value) && value.every(item => typeof item === 'string')
}

/** Calls `listener` when another tab kept something under a key. */
export function whenKeptElsewhere(key: string, listener: () => void): void {
  addEventListener('storage', event => event.key === PREFIX + key && listener())
}

function read(key: string): string | null {
  const newer = memory.get(key)
  if (newer !== undefined) return newer
  try {
    return localStorage.getItem(PREFIX + key)
  } catch {
    return null
  }
}

/** What found no room where damaged texts lie stays where it was, for the next page to find. */
function putBack(key: string, raw: string): void {
  try {
    localStorage.setItem(PREFIX + key, raw)
    if (key !== DAMAGED) memory.set(key, null)
  } catch {
    // Nor did it come from there.
  }
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
