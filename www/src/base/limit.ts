// How much an address may say, and to whom.

/**
 * The longest address that is read or written, in characters behind its `#`: many
 * times what a screen needs, and few enough to be read at once.
 */
export const LONGEST = 65_536

export function isLong(hash: string): boolean {
  return hash.length - (hash.startsWith('#') ? 1 : 0) > LONGEST
}

/** Whether an address is that of a lesson which keeps some of its values to itself. */
export function isHiding(hash: string): boolean {
  return /[?&](hide=|open\b)/.test(hash)
}
