/** A name inside a sentence: one that begins with a word, not with letters that are said one by one. */
export function within(name: string): string {
  return /^\p{Lu}(\p{Ll}*[ ,:]|\p{Ll}+$)/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name
}
