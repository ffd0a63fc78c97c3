// One search over calculators and everything there is to look up.

/** What can be found, with its words in the order of their weight. */
export interface Findable<T> {
  readonly item: T
  /** Its title and other words for it. */
  readonly names: Words
  /** What else is said of it. */
  readonly text: Words
}

interface Words {
  readonly all: string
  readonly each: readonly string[]
}

/** So many letters say enough to be looked for in the middle of a word. */
const MIDDLE = 3

export function findable<T>(item: T, names: readonly string[], text: readonly string[]): Findable<T> {
  return { item, names: wordsOf(names.join(' ')), text: wordsOf(text.join(' ')) }
}

/** What has all words of the text, the nearest first, else in the given order; all of it where there is no text. */
export function find<T>(text: string, among: readonly Findable<T>[]): T[] {
  const parts = wordsOf(text).each
  return among
    .map(({ item, names, text }) => ({ item, far: parts.reduce((sum, part) => sum + distance(part, names, text), 0) }))
    .filter(({ far }) => Number.isFinite(far))
    .sort((a, b) => a.far - b.far)
    .map(({ item }) => item)
}

function distance(part: string, names: Words, text: Words): number {
  if (names.each.includes(part)) return 0
  if (names.each.some(word => word.startsWith(part))) return 1
  if (part.length >= MIDDLE && names.all.includes(part)) return 2
  if (text.each.some(word => word.startsWith(part))) return 3
  return part.length >= MIDDLE && text.all.includes(part) ? 4 : Infinity
}

/** Letters and digits alone, small and without accents: “D.I.” is “di”, “Two-pole” is “two pole”. */
function wordsOf(text: string): Words {
  const all = text
    .normalize('NFKD')
    .replace(/[\p{M}.,'’]/gu, '')
    .toLowerCase()
  const each = all.split(/[^\p{L}\p{N}]+/u).filter(word => word !== '')
  return { all: each.join(' '), each }
}
