/** Blocks that follow one another are about one block apart, by shares of it. */
const [LEAST, MOST] = [0.25, 1.75]

/**
 * Tells by their times whether blocks of samples follow one another. Of a page that was
 * busy for too long some went missing, and those that waited come at once, overwritten.
 */
export class Gaps {
  readonly #seconds: number
  #last: number | null = null

  constructor(size: number, rate: number) {
    this.#seconds = size / rate
  }

  /** Whether the block that plays at this time, s, does not follow the one before it. */
  before(time: number): boolean {
    const step = this.#last === null ? 1 : (time - this.#last) / this.#seconds
    this.#last = time
    return step < LEAST || step > MOST
  }
}
