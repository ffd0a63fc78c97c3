// The page's own words come from the same catalogue as those of the answers.

let words: ReadonlyMap<string, string> = new Map()

export function setWords(next: Readonly<Record<string, string>>): void {
  words = new Map(Object.entries(next))
}

/** A message of the page with its arguments put in. */
export function say(key: string, args: Readonly<Record<string, string>> = {}): string {
  const pattern = words.get(key) ?? key
  return pattern.replace(/\{ \$(\w+) \}/g, (whole, name: string) => args[name] ?? whole)
}
