import { usePiece } from '../../base/use-piece'

/** The newest of what changes often: only what shows it is drawn again. */
export class Latest<T> {
  readonly listeners = new Set<() => void>()
  #value: T

  constructor(value: T) {
    this.#value = value
  }

  readonly get = (): T => this.#value

  readonly put = (value: T): void => {
    this.#value = value
    for (const listener of [...this.listeners]) listener()
  }

  /** Calls it with what is there and all that comes; gives what ends that. */
  follow(listener: (value: T) => void): () => void {
    const told = () => listener(this.#value)
    this.listeners.add(told)
    told()
    return () => {
      this.listeners.delete(told)
    }
  }
}

export function useLatest<T>(latest: Latest<T>): T {
  return usePiece(latest.listeners, latest.get, same)
}

function same<T>(value: T): T {
  return value
}
