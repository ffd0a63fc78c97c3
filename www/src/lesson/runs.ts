// What a learner did with a lesson, kept on this device; where that is refused it
// lasts as long as the page is open.

import type { LessonResponse } from '../../generated/contract'
import { isRecord, isText, keep, loadList } from '../base/kept'

/** One way through a lesson. */
export interface Run {
  readonly id: string
  readonly revision: number
  readonly seed: number
  /** The step that was on the screen, from 0 on. */
  readonly step: number
  /** What was answered so far; nothing where nothing was. */
  readonly responses: readonly (LessonResponse | null)[]
  /** Whether it was committed. */
  readonly committed: readonly boolean[]
}

type Of = Pick<Run, 'id' | 'revision'>

const RUNS = 'lesson-runs'
const NAME = 'lesson-name'
/** Older ones are not looked for again. */
const MOST_RUNS = 40

/** The newest run of a lesson, by its seed where one is named. */
export function runOf({ id, revision }: Of, seed: number | null): Run | undefined {
  return runs().find(run => run.id === id && run.revision === revision && (seed === null || run.seed === seed))
}

export function keepRun(run: Run): void {
  const isOther = (other: Run) => other.id !== run.id || other.revision !== run.revision || other.seed !== run.seed
  keep(RUNS, [run, ...runs().filter(isOther)].slice(0, MOST_RUNS))
}

/** The name that goes into results. */
export function learner(): string {
  const [name = ''] = loadList(NAME, isText)
  return name
}

export function keepLearner(name: string): void {
  keep(NAME, [name])
}

function runs(): Run[] {
  return loadList(RUNS, isRun)
}

function isRun(value: unknown): value is Run {
  if (!isRecord(value)) return false
  const { id, revision, seed, step, responses, committed } = value
  const areNumbers = [revision, seed, step].every(number => typeof number === 'number')
  const areResponses = Array.isArray(responses) && responses.every(response => response === null || isRecord(response))
  return isText(id) && areNumbers && areResponses && Array.isArray(committed)
}
