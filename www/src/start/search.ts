// One search over calculators and everything there is to look up.

/** What can be found. */
export interface Findable<T> {
  readonly item: T
  /** Its title and each other name for it. */
  readonly names: readonly string[]
  /** The words of its names. */
  readonly named: readonly string[]
  /** The words of what else is said of it. */
  readonly said: readonly string[]
}

/** At least this many letters say enough to be looked for in the middle of a word. */
const MIDDLE = 3
/** No name is so long, in characters: what is finds nothing, and is not compared with everything. */
const LONGEST = 200
/** More than all the words of a text can be away. */
const FAR = 100

export function findable<T>(item: T, names: readonly string[], said: readonly string[]): Findable<T> {
  const plain = names.map(name => wordsOf(name).join(' '))
  return { item, names: plain, named: plain.flatMap(name => name.split(' ')), said: wordsOf(said.join(' ')) }
}

/** What has every word of the text, the nearest first, else in the order in which it came. */
export function find<T>(text: string, among: readonly Findable<T>[]): T[] {
  if (text.length > LONGEST) return []
  const parts = wordsOf(text)
  const whole = parts.join(' ')
  return among
    .map(found => ({
      item: found.item,
      far: parts.reduce((sum, part) => sum + away(part, found), apart(whole, found)),
    }))
    .filter(({ far }) => Number.isFinite(far))
    .sort((a, b) => a.far - b.far)
    .map(({ item }) => item)
}

/** How far a text is from being a name. */
function apart(whole: string, { names }: Findable<unknown>): number {
  if (names.includes(whole)) return 0
  return names.some(name => name.startsWith(whole)) ? FAR : 2 * FAR
}

/** How far a word is from those that are found. */
function away(part: string, { named, said }: Findable<unknown>): number {
  const middle = (word: string) => part.length >= MIDDLE && word.includes(part)
  if (named.includes(part)) return 0
  if (named.some(word => word.startsWith(part))) return 1
  if (named.some(middle)) return 2
  if (said.some(word => word.startsWith(part))) return 3
  return said.some(middle) ? 4 : Infinity
}

/** Letters and digits alone, small and without accents: “D.I.” is “di”, “Two-pole” is “two” and “pole”. */
function wordsOf(text: string): string[] {
  const plain = text.normalize('NFKD').replace(/[\p{M}.,'’]/gu, '')
  return plain
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter(word => word !== '')
}
