// The page's own words, and the names of the calculators, from the same catalogue as
// those of the answers; they come in a file of their own, before any engine.

export interface PageWords {
  readonly words: Readonly<Record<string, string>>
  readonly calculators: readonly Told[]
  readonly languages: readonly ToldLanguage[]
}

/** A language: its code, its own name, the decimal sign that its reader begins with, and how many of all messages are in English still. */
export type ToldLanguage = readonly [
  code: string,
  name: string,
  decimal: 'point' | 'comma',
  missing: number,
  all: number,
]

/** What is told of a calculator before the engine has come. */
export interface Told {
  readonly id: string
  readonly title: string
  readonly purpose: string
}

const words = new Map<string, string>()
let calculators: readonly Told[] = []
let languages: readonly ToldLanguage[] = []

export function setWords(next: PageWords): void {
  addWords(next)
  calculators = next.calculators
  languages = next.languages
}

/** Adds those of a piece of the page, which come with it. */
export function addWords(next: Pick<PageWords, 'words'>): void {
  for (const [key, text] of Object.entries(next.words)) words.set(key, text)
}

/** Every calculator, in the order of the page. */
export function toldOfCalculators(): readonly Told[] {
  return calculators
}

/** Every language that there is. */
export function toldOfLanguages(): readonly ToldLanguage[] {
  return languages
}

const SELECTOR = /\{ \$(\w+) ->((?:[^{}]|\{[^{}]*\})*)\}/g
const VARIANT = /(\*?)\[(\w+)\]\s*(.*?)\s*(?=\*?\[|$)/g

/** What a selector chooses: the variant of the value, of its plural, or the one with the star, which is the last. */
function chosen(value: string, variants: string): string {
  const plural = new Intl.PluralRules(document.documentElement.lang).select(+value)
  const isIt = ([, star, key]: readonly string[]) => key === value || key === plural || star
  return [...variants.matchAll(VARIANT)].find(isIt)?.[3] ?? ''
}

/** A message of the page with its arguments put in. */
export function say(key: string, args: Readonly<Record<string, string>> = {}): string {
  const pattern = (words.get(key) ?? key).replace(SELECTOR, (_, name: string, variants: string) =>
    chosen(args[name] ?? '', variants),
  )
  return pattern.replace(/\{ \$(\w+) \}/g, (whole, name: string) => args[name] ?? whole)
}
