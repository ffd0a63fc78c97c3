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

const words = new Map<string, string>()
let calculators: readonly Told[] = []

export function setWords(next: PageWords): void {
  addWords(next)
  calculators = next.calculators
}

/** Adds those of a piece of the page, which come with it. */
export function addWords(next: Pick<PageWords, 'words'>): void {
  for (const [key, text] of Object.entries(next.words)) words.set(key, text)
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
