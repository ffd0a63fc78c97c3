import { usePiece } from '../../base/use-piece'

/** Between two who are told by turns, ms: more than a frame. */
const TURN = 20

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

  /** Tells those who listen one by one, each in a frame of its own; done once all know. */
  async spread(value: T): Promise<void> {
    this.#value = value
    for (const listener of [...this.listeners]) {
      if (this.listeners.has(listener)) listener()
      await new Promise(done => setTimeout(done, TURN))
    }
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
