// An attempt at a lesson, as a learning system keeps it.

import type { Answered, Attempt } from '../../launch/messages'
import { KEPT_MOST } from '../../launch/messages'
import type { LessonResponse, LessonStep, Marked } from '../../generated/contract'
import { isRecord } from '../base/kept'
import { pack, unpack } from './address'
import { NO_RESPONSE, type LessonState } from './lesson-state'
import { scoreOf } from './points'
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
  readonly seed: number
  /** The step that was on the screen. */
  readonly step: number
  readonly responses: readonly (LessonResponse | null)[]
  readonly given: readonly Given[]
}

/** Before what was packed, since it is too long as it is. */
const PACKED = '~'

/** Where the lesson stands, for a learning system. */
export async function attemptOf(state: LessonState, given: readonly Given[]): Promise<Attempt> {
  const { points, of, answered, asked } = scoreOf(state)
  return {
    kept: await writeKept(state, given),
    answered: given.flatMap(one => {
      const marked = state.marked[one.step] ?? null
      const step = state.lesson.steps[one.step]
      return marked === null || step === undefined ? [] : [answeredOf(state, one, step, marked)]
    }),
    share: of > 0 ? points / of : 1,
    pass: state.lesson.pass,
    progress: asked > 0 ? answered / asked : 1,
    done: answered === asked,
  }
}

function answeredOf(
  state: LessonState,
  { step: at, took, at: when }: Given,
  step: LessonStep,
  marked: Marked,
): Answered {
  const response = state.responses[at] ?? NO_RESPONSE
  return {
    step: at + 1,
    kind: step.kind,
    title: step.title,
    response: responseText(response, step, marked),
    right: marked.key.value === null || step.kind !== 'number' ? marked.key.text : `${marked.key.value}`,
    credit: marked.share,
    points: step.points,
    took,
    at: when,
  }
}

function responseText(response: LessonResponse, { kind, cases }: LessonStep, { said }: Marked): string {
  switch (kind) {
    case 'number':
      return said === null ? response.text : `${said}`
    case 'magnitude':
      return `1e${response.decade ?? 0}`
    case 'curve':
      return response.curve.map(([hz, level]) => `${rounded(hz)}:${rounded(level)}`).join(' ')
    case 'target':
      return Object.entries(response.parts)
        .map(([field, value]) => `${field}=${value}`)
        .join(' ')
    case 'fault':
      return cases[response.case ?? -1]?.name ?? ''
    default:
      return response.order.join(' ')
  }
}

function rounded(number: number): number {
  return Number(number.toPrecision(4))
}

async function writeKept({ lesson, seed, step, responses, marked }: LessonState, given: readonly Given[]) {
  const all = {
    v: 1,
    id: lesson.id,
    revision: lesson.revision,
    seed,
    step,
    responses: responses.map((one, at) => (marked[at] === null ? null : saidOf(one))),
    given: given.map(({ step, took, at }) => [step, took, at]),
  }
  const text = JSON.stringify(all)
  if (text.length <= KEPT_MOST) return text
  const packed = `${PACKED}${(await pack(text)) ?? ''}`
  // What no learning system keeps whole is better not kept than kept in part.
  return packed.length <= KEPT_MOST && packed !== PACKED ? packed : ''
}

/** What an earlier attempt left; nothing where that cannot be read. */
export async function readKept(kept: string): Promise<Kept | null> {
  try {
    const unpacked = kept.startsWith(PACKED) ? await unpack(kept.slice(PACKED.length)) : { text: kept }
    if (!('text' in unpacked)) return null
    const all: unknown = JSON.parse(unpacked.text)
    if (!isRecord(all) || all['v'] !== 1) return null
    const { id, revision, seed, step, responses, given } = all
    const areNumbers = [revision, seed, step].every(Number.isSafeInteger)
    if (typeof id !== 'string' || !areNumbers || !Array.isArray(responses) || !Array.isArray(given)) return null
    return {
      id,
      revision: Number(revision),
      seed: Number(seed),
      step: Number(step),
      responses: responses.map(one => (isRecord(one) ? { ...NO_RESPONSE, ...(one as Partial<LessonResponse>) } : null)),
      given: given.flatMap(one => {
        const [step = NaN, took = NaN, at = NaN] = Array.isArray(one) ? one.map(Number) : []
        return [step, took, at].every(Number.isFinite) ? [{ step, took, at }] : []
      }),
    }
  } catch {
    return null
  }
}
