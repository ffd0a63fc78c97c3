// The words of a text as the search compares them.

/**
 * What the catalogue knows of words: those that say nothing of what is looked for
 * (`idle`); those that the trade uses for the same, a group before each semicolon
 * (`alike`); and what several of a kind end in where one does not, the longest first.
 */
export type Lexicon = (of: 'idle' | 'alike' | 'endings') => string

export interface Terms {
  /** The words of a text that say something, each in the one way that stands for all. */
  of(text: string): string[]
  /** All of its words. */
  all(text: string): string[]
}

export function makeTerms(lexicon: Lexicon): Terms {
  const cut = piecesOf(lexicon('endings'))
  const same = new Map(
    lexicon('alike')
      .split(';')
      .flatMap(group => piecesOf(group).map((word, _, [first]) => [word, first])),
  )
  const idleWords = new Set(piecesOf(lexicon('idle')))
  const termOf = (word: string) => {
    const ones = onesOf(word, cut)
    const known = [word, ...ones].find(one => same.has(one))
    return (known === undefined ? ones[0] : same.get(known)) ?? word
  }
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

/** What one may be called where several are called so; a short word, and one in “ss”, ends so by itself. */
function onesOf(word: string, endings: readonly string[]): string[] {
  return endings
    .filter(ending => word.endsWith(ending))
    .map(ending => word.slice(0, -ending.length))
    .filter(one => /^\p{L}{2,}[^\P{L}s]$/u.test(one))
}
