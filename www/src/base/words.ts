// The page's own words, and the names of the calculators, from the same catalogue as
// those of the answers; they come in a file of their own, before any engine.

export interface PageWords {
  readonly words: Readonly<Record<string, string>>
  readonly calculators: readonly Told[]
}

/** What is told of a calculator before the engine has come. */
export interface Told {
  readonly id: string
  readonly title: string
  readonly purpose: string
}

let words: ReadonlyMap<string, string> = new Map()
let calculators: readonly Told[] = []

export function setWords(next: PageWords): void {
  words = new Map(Object.entries(next.words))
  calculators = next.calculators
}

/** Every calculator, in the order of the page. */
export function toldOfCalculators(): readonly Told[] {
  return calculators
}

/** A message of the page with its arguments put in. */
export function say(key: string, args: Readonly<Record<string, string>> = {}): string {
  const pattern = words.get(key) ?? key
  return pattern.replace(/\{ \$(\w+) \}/g, (whole, name: string) => args[name] ?? whole)
}
