/** A block that comes later than this share of itself was not the next one. */
const LATE = 0.75

/** Tells by their times whether a block of samples went missing between others. */
export class Gaps {
  readonly #size: number
  readonly #rate: number
  /** Samples that came. */
  #came = 0
  /** By how many samples the clock is ahead of those that came, where nothing is late. */
  #ahead = Infinity

  constructor(size: number, rate: number) {
    this.#size = size
    this.#rate = rate
  }

  /** Whether something is missing before the block that plays at this time, s. */
  before(time: number): boolean {
    const ahead = time * this.#rate - this.#came
    this.#came += this.#size
    const isGap = ahead > this.#ahead + LATE * this.#size
    this.#ahead = isGap ? ahead : Math.min(this.#ahead, ahead)
    return isGap
  }
}
