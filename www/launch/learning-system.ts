import type { Attempt } from './messages'

/** What a learning system says at the start. */
export interface Begun {
  /** What an earlier attempt left. */
  readonly kept: string
  /** Whether what is done counts: nothing does in looking around, or looking back. */
  readonly counts: boolean
  readonly name: string
}

/** A learning system, by whichever standard. What it refuses it throws, in its words. */
export interface LearningSystem {
  begin(): Promise<Begun>
  keep(attempt: Attempt): Promise<void>
  /** Says good-bye; more than once does nothing more. */
  end(): void
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
