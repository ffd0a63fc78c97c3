import type { Answered, Attempt } from './messages'

/** What a learning system says at the start. */
export interface Begun {
  /** What an earlier attempt left. */
  readonly kept: string
  /** Whether what is done counts: nothing does in looking around, or looking back. */
  readonly counts: boolean
  /** Whether an attempt was finished. */
  readonly finished: boolean
  readonly name: string
  /** Where the learner goes back to; empty where that is not said. */
  readonly wayBack: string
}

/** A learning system, by whichever standard. What it refuses it throws, in its words. */
export interface LearningSystem {
  /** May be tried again where it throws. */
  begin(): Promise<Begun>
  keep(attempt: Attempt): Promise<void>
  /** Says good-bye; more than once does nothing more. */
  end(): Promise<void>
}

/** The answers of an attempt, each of which is told once, over all sessions. */
export class Untold {
  #told: number | null = null;

  /** Those that were not told yet; one at which whoever tells them throws comes again. */
  *of({ earlier, answered }: Attempt): Generator<Answered> {
    this.#told ??= earlier
    for (const one of answered.slice(Math.max(0, this.#told - earlier))) {
      yield one
      this.#told += 1
    }
  }
}

/** Whether something was said for the first time. */
export function once(): () => boolean {
  let said = false
  return () => {
    const first = !said
    said = true
    return first
  }
}
