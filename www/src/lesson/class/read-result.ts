// A result as it was handed in: whatever it is, it is told.

import type { LessonResponse } from '../../../generated/contract'
import { isRecord, isText } from '../../base/shape'
import { responseOf } from '../response'
import { LARGEST, type HandedIn } from './handed-in'

export interface Result {
  readonly id: string
  readonly revision: number
  /** By what the text of its lesson is known; empty where it does not say it, as earlier versions did not. */
  readonly text: string
  readonly seed: number
  readonly name: string
  /** By step; nothing where nothing was committed, or it is no response. */
  readonly responses: readonly (LessonResponse | null)[]
  /** Whether something in it is no response. */
  readonly unreadable: boolean
  /** What it says that they were worth. */
  readonly points: readonly (number | null)[]
}

export type Why = 'large' | 'no-json' | 'foreign' | 'newer' | 'damaged'

const KIND = 'lesson-result'
const VERSION = 1
const MOST_SEED = 2 ** 32 - 1
const MOST_STEPS = 60
const LONGEST_NAME = 80

export function readResult({ text, size }: HandedIn): Result | Why {
  if (size > LARGEST) return 'large'
  let file: unknown
  try {
    file = JSON.parse(text)
  } catch {
    return 'no-json'
  }
  if (!isRecord(file) || file['stageohm'] !== KIND) return 'foreign'
  const { version, lesson, seed, name, responses, points } = file
  if (!isWhole(version, MOST_SEED)) return 'damaged'
  if (version > VERSION) return 'newer'
  if (!isRecord(lesson) || !isText(lesson['id']) || !isWhole(lesson['revision'], MOST_SEED)) return 'damaged'
  if (!isWhole(seed, MOST_SEED) || !isText(name) || !areResponses(responses)) return 'damaged'
  const said: unknown[] = Array.isArray(points) ? points : []
  const read = responses.map(responseOf)
  return {
    id: lesson['id'],
    revision: lesson['revision'],
    text: isText(lesson['text']) ? lesson['text'] : '',
    seed,
    name: name.trim().slice(0, LONGEST_NAME),
    responses: read,
    unreadable: read.some((one, at) => one === null && responses[at] !== null),
    points: responses.map((_, at) => (Number.isFinite(said[at]) ? Number(said[at]) : null)),
  }
}

function areResponses(value: unknown): value is (Record<string, unknown> | null)[] {
  return Array.isArray(value) && value.length <= MOST_STEPS && value.every(one => one === null || isRecord(one))
}

function isWhole(value: unknown, most: number): value is number {
  return typeof value === 'number' && Number.isInteger(value) && value >= 0 && value <= most
}
