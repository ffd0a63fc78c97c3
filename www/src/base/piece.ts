// A piece of the page whose script comes once it is wanted, and leaves what it has
// under a name of its own.

import { runPart } from './part'

export interface Piece<T> {
  /** What it has; nothing until it has come. */
  here(): T | null
  /** Fetches it; one that did not come is asked for again the next time. */
  want(): Promise<T>
}

/** The piece whose script the element `<name>-source` tells, and which leaves `stageohm<Name>`. */
export function pieceOf<T>(name: string): Piece<T> {
  const key = `stageohm${name.charAt(0).toUpperCase()}${name.slice(1)}`
  const here = () => ((globalThis as Record<string, unknown>)[key] as T | undefined) ?? null
  let coming: Promise<void> | null = null
  return {
    here,
    async want() {
      try {
        coming ??= runPart(`${name}-source`)
        await coming
        const come = here()
        // A network's log-in page in its place runs too, and is none.
        if (come === null) throw new Error(`${name} is not whole`)
        return come
      } catch (error) {
        coming = null
        throw error
      }
    },
  }
}
