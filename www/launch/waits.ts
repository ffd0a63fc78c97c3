const FIRST = 2000
const LONGEST = 60_000

/** How long is waited before each new try, in milliseconds: longer and longer. */
export function waits(): () => number {
  let next = FIRST
  return () => {
    const now = next
    next = Math.min(2 * next, LONGEST)
    return now
  }
}
