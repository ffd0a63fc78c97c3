// What the page asks of the stage, of a fault, of what is heard and of lessons, beside the page.

import type { Engine } from './started'

/** The functions of the engine that are about these. */
export type StageAsk = Extract<keyof Engine, `${'stage' | 'fault' | 'listen' | 'lesson'}_${string}`>

export interface StageCall {
  readonly call: StageAsk
  readonly given: readonly unknown[]
  readonly number: number
}

export type StageReply =
  { readonly number: number; readonly result: unknown } | { readonly number: number; readonly error: string }
