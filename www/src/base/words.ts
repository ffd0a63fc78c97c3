// The page's own words come from the same catalogue as those of the answers.

let words: Readonly<Record<string, string>> = {}

export function setWords(next: Readonly<Record<string, string>>): void {
  words = next
}

/** A message of the page with its arguments put in. */
export function say(key: string, args: Readonly<Record<string, string>> = {}): string {
  const pattern = words[key] ?? key
  return pattern.replace(/\{ \$(\w+) \}/g, (whole, name: string) => args[name] ?? whole)
}
