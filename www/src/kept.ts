// What the page keeps in this browser, a text for each key. Where the browser
// refuses, it lasts as long as the page is open.

const PREFIX = 'stageohm.'
/** Under this key lies what could not be read, until the reader lets it go. */
const DAMAGED = 'damaged'
const memory = new Map<string, string>()
let told: (() => void) | null = null

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
  keep(DAMAGED, { ...damaged(), [key]: raw })
  told?.()
  return null
}

export function keep(key: string, value: unknown): void {
  const raw = JSON.stringify(value)
  memory.set(key, raw)
  try {
    localStorage.setItem(PREFIX + key, raw)
  } catch {
    // Refused, or full: the memory has it.
  }
}

/** What was kept and could not be read, by key, for the reader to rescue. */
export function damaged(): Record<string, unknown> {
  return load(DAMAGED, isRecord) ?? {}
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

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

function read(key: string): string | null {
  try {
    const kept = localStorage.getItem(PREFIX + key)
    if (kept !== null) return kept
  } catch {
    // Refused.
  }
  return memory.get(key) ?? null
}

function drop(key: string): void {
  memory.delete(key)
  try {
    localStorage.removeItem(PREFIX + key)
  } catch {
    // Refused: then it is not kept there either.
  }
}
