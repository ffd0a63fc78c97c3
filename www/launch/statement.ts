// Statements (xAPI 1.0.3), wherever they go: to the record store of a learning system, or
// into a file.

import { interaction } from './interaction'
import type { Answer } from './messages'

/** What can be said of a lesson, by the last part of its identifier (ADL). */
export type Verb = 'initialized' | 'answered' | 'completed' | 'passed' | 'failed' | 'terminated'

interface Result {
  readonly score?: { readonly scaled: number }
  readonly success?: boolean
  readonly completion?: boolean
  readonly response?: string
  readonly duration?: string
}

/** What is said, and of what. */
export interface Said {
  readonly verb: Verb
  /** The lesson itself where it is not said. */
  readonly object?: Activity
  readonly result?: Result
}

interface Activity {
  readonly objectType: 'Activity'
  readonly id: string
  readonly definition?: Readonly<Record<string, unknown>>
}

/** Who says it, where and when. */
export interface Around {
  readonly id: string
  readonly actor: unknown
  /** The lesson. */
  readonly lesson: Activity
  readonly context: Readonly<Record<string, unknown>>
  /** Where that is known. */
  readonly timestamp?: string
}

export interface Statement extends Omit<Around, 'lesson'> {
  readonly verb: { readonly id: string; readonly display: Readonly<Record<string, string>> }
  readonly object: Activity
  readonly result?: Result
}

const VERBS = 'http://adlnet.gov/expapi/verbs/'
const INTERACTION = 'http://adlnet.gov/expapi/activities/cmi.interaction'

export function statement(
  { verb, object, result }: Said,
  { id, actor, lesson, context, timestamp }: Around,
): Statement {
  return {
    id,
    ...(timestamp === undefined ? {} : { timestamp }),
    actor,
    verb: { id: VERBS + verb, display: { en: verb } },
    object: object ?? lesson,
    ...(result === undefined ? {} : { result }),
    context,
  }
}

/** An answer to a step of a lesson, by the identifier of that; `language` is that of its texts. */
export function answered(lesson: string, answer: Answer, language: string): Said {
  const { step, title, credit, order } = answer
  const { type, response, patterns } = interaction(answer)
  const choices = order?.ways.map(({ id, name }) => ({ id, description: { [language]: name } }))
  return {
    verb: 'answered',
    object: {
      objectType: 'Activity',
      id: `${lesson}/step/${step}`,
      definition: {
        type: INTERACTION,
        interactionType: type,
        name: { [language]: title },
        correctResponsesPattern: patterns,
        ...(choices === undefined ? {} : { choices }),
      },
    },
    result: { response, ...(credit === null ? {} : { success: credit >= 1, score: { scaled: scaled(credit) } }) },
  }
}

export const COMPLETED: Said = { verb: 'completed', result: { completion: true } }

/** Who has this share of the points, where so much passes; what is judged is the share that is told. */
export function judged(share: number, pass: number): Said {
  const score = { scaled: scaled(share) }
  const success = score.scaled >= pass
  return { verb: success ? 'passed' : 'failed', result: { score, success } }
}

/** A share to seven decimals, which do not hang on who has computed it. */
function scaled(share: number): number {
  return Number(Math.min(Math.max(share, 0), 1).toFixed(7))
}
