// The words of a text as the search compares them.

/** What the trade says in several ways. */
export interface Lexicon {
  /** Words that say nothing of what is looked for. */
  readonly idle: string
  /** Words that mean the same, a group before each semicolon. */
  readonly alike: string
}

export interface Terms {
  /** The words of a text that say something, each in the one way that stands for all. */
  of(text: string): string[]
  /** All of its words. */
  all(text: string): string[]
}

export function makeTerms({ idle, alike }: Lexicon): Terms {
  const same = new Map(alike.split(';').flatMap(group => piecesOf(group).map((word, _, [first]) => [word, first])))
  const idleWords = new Set(piecesOf(idle))
  const termOf = (word: string) => same.get(word) ?? same.get(oneOf(word)) ?? oneOf(word)
  return {
    of: text =>
      piecesOf(text)
        .filter(word => !idleWords.has(word))
        .map(termOf),
    all: text => piecesOf(text).map(termOf),
  }
}

/** Letters and digits alone, small and without accents: “D.I.” is “di”, “two-pole” is “two” and “pole”, “1/4” stays. */
function piecesOf(text: string): string[] {
  const plain = text.normalize('NFKD').replace(/[\p{M}.,'’]/gu, '')
  return plain.toLowerCase().match(/\d+\/\d+|[\p{L}\p{N}]+/gu) ?? []
}

/** Several are called as one is. */
function oneOf(word: string): string {
  return /^\p{L}{3,}s$/u.test(word) && !word.endsWith('ss') ? word.slice(0, -1) : word
}
