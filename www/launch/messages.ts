// What the page that a learning system starts and the lesson inside it say to each other.

export const VERSION = 3
/** No message is longer, in characters of JSON. */
export const LONGEST = 1_048_576
/** What SCORM 1.2 keeps of an attempt, in characters. */
export const KEPT_MOST = 4096

/** An answer, as far as anybody who keeps answers wants to know. */
export interface Answer {
  /** The step, from 1 on, and what is asked there. */
  readonly step: number
  readonly title: string
  /** As text. */
  readonly response: string
  readonly right: string
  /** Of an answer that is a number, in SI units. */
  readonly number: {
    readonly said: number
    /** What is right, and from and to where all credit is given: none, the first, or all three. */
    readonly right: readonly number[]
  } | null
  readonly order: Order | null
  /** From 0 to 1; nothing where nothing is right. */
  readonly credit: number | null
  readonly points: number
}

/** An answer that puts ways in order. */
export interface Order {
  /** The ways, as the lesson has them. */
  readonly ways: readonly { readonly id: string; readonly name: string }[]
  /** By identifier. */
  readonly said: readonly string[]
  /** The same; the ways of one list are tied. */
  readonly right: readonly (readonly string[])[]
}

/** An answer that was given here. */
export interface Answered extends Answer {
  /** How long it took, and when it was given, milliseconds. */
  readonly took: number
  readonly at: number
}

/** Where the attempt stands. */
export interface Attempt {
  /** Seed and responses, to go on from: at most [`KEPT_MOST`] characters. */
  readonly kept: string
  /** So many answers were given in earlier sessions; those of this one follow, in their order. */
  readonly earlier: number
  readonly answered: readonly Answered[]
  /** The share of the points so far, from 0 to 1; nothing where there are none to be had. */
  readonly share: number | null
  /** The share that passes. */
  readonly pass: number
  /** How much of the lesson is behind the learner, from 0 to 1. */
  readonly progress: number
  /** Whether it is finished: nothing is told after that. */
  readonly done: boolean
}

/** From the lesson: it is ready, where it stands, or the learner goes back to the learning system. */
export type FromLesson =
  | { readonly type: 'stageohm:lesson'; readonly version: number; readonly what: 'ready' }
  | { readonly type: 'stageohm:lesson'; readonly version: number; readonly what: 'attempt'; readonly attempt: Attempt }
  | { readonly type: 'stageohm:lesson'; readonly version: number; readonly what: 'leave' }

/** To the lesson. */
export type ToLesson =
  | {
      readonly type: 'stageohm:launch'
      readonly version: number
      readonly what: 'begin'
      readonly kept: string
      /** Looking around, or looking back: nothing counts. */
      readonly counts: boolean
      /** Whether the learning system has an attempt that was finished. */
      readonly finished: boolean
      readonly name: string
      /** Whether the learning system says where a learner goes back to. */
      readonly wayBack: boolean
    }
  /** The learning system is not reached; it is tried again. */
  | { readonly type: 'stageohm:launch'; readonly version: number; readonly what: 'unreached' }
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
