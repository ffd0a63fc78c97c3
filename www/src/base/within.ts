/** A name inside a sentence. */
export function within(name: string): string {
  return /^[A-Z][a-z]*[ ,:]/.test(name) || /^[A-Z][a-z]+$/.test(name)
    ? name.charAt(0).toLowerCase() + name.slice(1)
    : name
}
