import { usePiece } from '../../base/use-piece'

export interface Store<T extends object> {
  get(): T
  put(change: Partial<T>): void
  /** A piece of it; the view is drawn again when the piece is another. */
  use<P>(select: (state: T) => P): P
}

/** A state that views take pieces of; it begins once it is asked for. */
export function storeOf<T extends object>(begin: () => T): Store<T> {
  let state: T | null = null
  const listeners = new Set<() => void>()
  const get = () => (state ??= begin())
  return {
    get,
    put(change) {
      state = { ...get(), ...change }
      for (const listener of [...listeners]) listener()
    },
    use: select => usePiece(listeners, get, select),
  }
}
