// What the page that a learning system starts and the lesson inside it say to each other.

export const VERSION = 1
/** No message is longer, in characters of JSON. */
export const LONGEST = 65_536
/** What SCORM 1.2 keeps of an attempt, in characters. */
export const KEPT_MOST = 4096

/** An answer, as far as a learning system wants to know. */
export interface Answered {
  /** The step, from 1 on, and what is asked there. */
  readonly step: number
  readonly kind: string
  readonly title: string
  /** As text; of a quantity the bare number in SI units. */
  readonly response: string
  readonly right: string
  /** From 0 to 1. */
  readonly credit: number
  readonly points: number
  /** How long it took, and when it was given, milliseconds. */
  readonly took: number
  readonly at: number
}

/** Where the attempt stands. */
export interface Attempt {
  /** Seed and responses, to go on from: at most [`KEPT_MOST`] characters. */
  readonly kept: string
  readonly answered: readonly Answered[]
  /** The share of the points, from 0 to 1, once all steps are answered; else so far. */
  readonly share: number
  /** The share that passes. */
  readonly pass: number
  /** The share of the steps that were answered. */
  readonly progress: number
  readonly done: boolean
}

/** From the lesson. */
export type FromLesson =
  | { readonly type: 'stageohm:lesson'; readonly version: number; readonly what: 'ready' }
  | { readonly type: 'stageohm:lesson'; readonly version: number; readonly what: 'attempt'; readonly attempt: Attempt }

/** To the lesson. */
export type ToLesson =
  | {
      readonly type: 'stageohm:launch'
      readonly version: number
      readonly what: 'begin'
      readonly kept: string
      /** Looking around, or looking back: nothing counts. */
      readonly counts: boolean
      readonly name: string
    }
  | {
      readonly type: 'stageohm:launch'
      readonly version: number
      readonly what: 'kept'
      /** Whether the learning system took it. */
      readonly taken: boolean
      /** Why not, in its words. */
      readonly why: string
    }

/** Whether something that came may be read: of this version, and no longer than it may be. */
export function isReadable(data: unknown, type: FromLesson['type'] | ToLesson['type']): boolean {
  if (typeof data !== 'object' || data === null) return false
  const { type: given, version } = data as { readonly type?: unknown; readonly version?: unknown }
  if (given !== type || version !== VERSION) return false
  try {
    return JSON.stringify(data).length <= LONGEST
  } catch {
    return false
  }
}
