// An attempt at a lesson, as a learning system keeps it.

import { KEPT_MOST, type Answer, type Attempt, type Order } from '../../launch/messages'
import type { LessonKey, LessonResponse, LessonStep, Marked, Way } from '../../generated/contract'
import { isRecord, isText } from '../base/shape'
import { pack, unpack } from './address'
import { earKey, earText } from './ear-words'
import type { LessonState } from './lesson-state'
import { hasNoAnswer, scoreOf } from './points'
import { NO_RESPONSE, responseOf } from './response'
import { saidOf } from './result-file'

/** What is known of the answers beside what they say. */
export interface Given {
  /** The step, from 0 on. */
  readonly step: number
  readonly took: number
  readonly at: number
}

/** Seed and responses, to go on from. */
export interface Kept {
  readonly id: string
  readonly revision: number
  /** By what the text of the lesson is known; earlier versions did not keep it. */
  readonly text: string | undefined
  readonly seed: number
  /** The step that was on the screen. */
  readonly step: number
  readonly responses: readonly (LessonResponse | null)[]
  readonly given: readonly Given[]
  /** Whether it was finished. */
  readonly done: boolean
}

/** Before what was packed, since it is too long as it is. */
const PACKED = '~'
/** What SCORM 2004 keeps of an answer and of what it is called, in characters. */
const LONGEST_TEXT = 4000
const LONGEST_NAME = 250

/** What is told beside where the lesson stands. */
interface Told {
  readonly given: readonly Given[]
  /** So many of them in earlier sessions. */
  readonly earlier: number
  readonly done: boolean
}

/** Whether all was answered; where nothing is asked, whether the last step was come to. */
export function isDone(state: LessonState): boolean {
  const { answered, asked } = scoreOf(state)
  if (asked > 0) return answered === asked
  // Of a single step nobody knows that it was read before it is left.
  return state.step >= Math.max(1, state.lesson.steps.length - 1)
}

/** Where the lesson stands, for a learning system. */
export async function attemptOf(state: LessonState, { given, earlier, done }: Told): Promise<Attempt> {
  const { points, of, answered, asked } = scoreOf(state)
  const seen = Math.min(1, state.step / Math.max(1, state.lesson.steps.length - 1))
  return {
    kept: await writeKept(state, given, done),
    earlier,
    answered: given.slice(earlier).flatMap(one => {
      const marked = state.marked[one.step] ?? null
      const step = state.lesson.steps[one.step]
      if (marked === null || step === undefined) return []
      const ways = state.dealt.steps[one.step]?.ways ?? []
      const response = state.responses[one.step] ?? NO_RESPONSE
      return [{ ...answerOf({ at: one.step, step, ways, response, marked }), took: one.took, at: one.at }]
    }),
    share: of > 0 ? points / of : null,
    pass: state.lesson.pass,
    progress: done ? 1 : asked > 0 ? answered / asked : seen,
    done,
  }
}

/** What is known of an answer, wherever it was given. */
interface Answering {
  /** The step, from 0 on. */
  readonly at: number
  readonly step: LessonStep
  /** The ways that it puts in order. */
  readonly ways: readonly Way[]
  readonly response: LessonResponse
  readonly marked: Marked
}

/** An answer for whoever keeps answers. */
export function answerOf({ at, step, ways, response, marked }: Answering): Answer {
  const { said, key, share, of } = marked
  const isNumber = step.kind === 'number' && said !== null
  const right = key.value === null ? [] : [key.value, ...(key.full ?? [])]
  return {
    step: at + 1,
    title: cut(step.title),
    response: responseText(response, step).slice(0, LONGEST_TEXT),
    right: (step.kind === 'ear' ? earKey(response, key) : key.text).slice(0, LONGEST_TEXT),
    number: isNumber ? { said: significant(said), right: right.map(significant) } : null,
    order: step.kind === 'choice' ? orderOf(ways, response, key) : null,
    credit: of === 0 && hasNoAnswer(key) ? null : share,
    points: step.points,
  }
}

/** The ways are told as the lesson has them, whatever order they were dealt in. */
function orderOf(ways: readonly Way[], { order }: LessonResponse, { order: right }: LessonKey): Order {
  const inFile = [...ways].sort((a, b) => a.id.localeCompare(b.id, 'en', { numeric: true }))
  return { ways: inFile.map(({ id, name }) => ({ id, name: cut(name) })), said: order, right }
}

function responseText(response: LessonResponse, { kind, cases }: LessonStep): string {
  switch (kind) {
    case 'number':
      return response.text
    case 'magnitude':
      return `1e${response.decade ?? 0}`
    case 'curve':
      return response.curve.map(([hz, level]) => `${rounded(hz)}:${rounded(level)}`).join(' ')
    case 'target':
      return Object.entries(response.parts)
        .map(([field, value]) => `${field}=${value}`)
        .join(' ')
    case 'ear':
      return earText(response)
    case 'fault':
      return cases[response.case ?? -1]?.name ?? ''
    default:
      return response.order.join(' ')
  }
}

function rounded(number: number): number {
  return Number(number.toPrecision(4))
}

/** As many digits as a learning system is sure to keep. */
function significant(number: number): number {
  return Number(number.toPrecision(7))
}

/** No more of what something is called than a learning system is sure to keep. */
function cut(text: string): string {
  return Array.from(text).slice(0, LONGEST_NAME).join('')
}

async function writeKept(
  { lesson, text: known, seed, step, responses, marked }: LessonState,
  given: readonly Given[],
  done: boolean,
): Promise<string> {
  const all = {
    v: 1,
    id: lesson.id,
    revision: lesson.revision,
    text: known,
    seed,
    step,
    responses: responses.map((one, at) => (marked[at] === null ? null : saidOf(shortened(one)))),
    given: given.map(({ step, took, at }) => [step, took, at]),
    done,
  }
  const text = JSON.stringify(all)
  if (text.length <= KEPT_MOST) return text
  const packed = `${PACKED}${(await pack(text)) ?? ''}`
  if (packed.length <= KEPT_MOST && packed !== PACKED) return packed
  // Which run it was, and what was told of it, is kept even so.
  return JSON.stringify({ ...all, responses: [] })
}

/** A curve as exactly as anybody draws. */
function shortened(response: LessonResponse): LessonResponse {
  return { ...response, curve: response.curve.map(([hz, level]) => [rounded(hz), rounded(level)]) }
}

/** What an earlier attempt left; nothing where that cannot be read. */
export async function readKept(kept: string): Promise<Kept | null> {
  try {
    const unpacked = kept.startsWith(PACKED) ? await unpack(kept.slice(PACKED.length)) : { text: kept }
    if (!('text' in unpacked)) return null
    const all: unknown = JSON.parse(unpacked.text)
    if (!isRecord(all) || all['v'] !== 1) return null
    const { id, revision, text, seed, step, responses, given, done } = all
    const areNumbers = [revision, seed, step].every(one => Number.isSafeInteger(one) && Number(one) >= 0)
    if (typeof id !== 'string' || !areNumbers || !Array.isArray(responses) || !Array.isArray(given)) return null
    return {
      id,
      revision: Number(revision),
      text: isText(text) ? text : undefined,
      seed: Number(seed),
      step: Number(step),
      responses: responses.map(responseOf),
      given: given.flatMap(one => {
        const [step = NaN, took = NaN, at = NaN] = Array.isArray(one) ? one.map(Number) : []
        return [step, took, at].every(Number.isFinite) ? [{ step, took, at }] : []
      }),
      done: done === true,
    }
  } catch {
    return null
  }
}
