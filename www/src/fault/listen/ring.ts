/** So many samples are copied in one go, and each in a frame of its own, ms. */
const PIECE = 16_384
const PAUSE = 10

/** The newest samples, and no more of them than it has room for. */
export class Ring {
  readonly #samples: Float32Array<ArrayBuffer>
  /** How many came since it was emptied. */
  #count = 0
  /** How often it was emptied. */
  #cleared = 0

  constructor(room: number) {
    this.#samples = new Float32Array(room)
  }

  clear(): void {
    this.#count = 0
    this.#cleared++
  }

  push(block: Float32Array): void {
    const room = this.#samples.length
    const newest = block.subarray(Math.max(0, block.length - room))
    const at = (this.#count + block.length - newest.length) % room
    const before = newest.subarray(0, room - at)
    this.#samples.set(before, at)
    this.#samples.set(newest.subarray(before.length), 0)
    this.#count += block.length
  }

  /** The newest so many, in order; fewer where there are not as many. */
  last(wanted: number): Float32Array<ArrayBuffer> {
    const length = this.#lengthOf(wanted)
    const last = new Float32Array(length)
    this.#copy(this.#count - length, last)
    return last
  }

  /**
   * The same, copied piece by piece, so that a slow page is not held up; nothing where
   * samples went that were wanted.
   */
  async lastSlowly(wanted: number): Promise<Float32Array<ArrayBuffer> | null> {
    const length = this.#lengthOf(wanted)
    const [from, cleared] = [this.#count - length, this.#cleared]
    const last = new Float32Array(length)
    for (let at = 0; at < length; at += PIECE) {
      if (this.#cleared !== cleared || this.#count - from - at > this.#samples.length) return null
      this.#copy(from + at, last.subarray(at, at + PIECE))
      await new Promise(done => setTimeout(done, PAUSE))
    }
    return last
  }

  #lengthOf(wanted: number): number {
    return Math.min(Math.floor(wanted), this.#count, this.#samples.length)
  }

  /** Fills it with the samples from a place on, counted from when it was emptied. */
  #copy(place: number, into: Float32Array): void {
    const from = place % this.#samples.length
    const tail = this.#samples.subarray(from, from + into.length)
    into.set(tail)
    into.set(this.#samples.subarray(0, into.length - tail.length), tail.length)
  }
}
