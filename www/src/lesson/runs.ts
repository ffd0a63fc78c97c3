// What a learner did with a lesson, kept on this device; where that is refused it
// lasts as long as the page is open.

import type { LessonResponse } from '../../generated/contract'
import { isRecord, isText, keep, loadList, whenKeptElsewhere } from '../base/kept'
import { responseOf } from './response'

/** One way through a lesson. */
export interface Run {
  readonly id: string
  readonly revision: number
  /** By what the text of the lesson is known; the runs of earlier versions do not say it. */
  readonly text?: string | undefined
  readonly seed: number
  /** The step that was on the screen, from 0 on. */
  readonly step: number
  /** What was answered so far; nothing where nothing was. */
  readonly responses: readonly (LessonResponse | null)[]
  /** Whether it was committed. */
  readonly committed: readonly boolean[]
}

type Of = Pick<Run, 'id' | 'revision' | 'text'>

const RUNS = 'lesson-runs'
const NAME = 'lesson-name'
/** Older ones are not looked for again. */
const MOST_RUNS = 40

/** The newest run of a lesson, by its seed where one is named. */
export function runOf(lesson: Of, seed: number | null): Run | undefined {
  return runs().find(run => isFor(run, lesson) && (seed === null || run.seed === seed))
}

/** Keeps a run, with what was committed in another tab meanwhile; answers whether the browser took it. */
export function keepRun(run: Run): boolean {
  const isSame = (other: Run) => isFor(other, run) && other.seed === run.seed
  const all = runs()
  const others = all.filter(other => !isSame(other))
  return keep(RUNS, [all.filter(isSame).reduce(withCommitted, run), ...others].slice(0, MOST_RUNS))
}

/** Calls `listener` when another tab keeps a run. */
export function whenRunsChange(listener: () => void): void {
  whenKeptElsewhere(RUNS, listener)
}

/** Whether a run is one of a lesson: of its very text, or where that is not known of its name. */
function isFor(run: Run, { id, revision, text }: Of): boolean {
  if (run.id !== id || run.revision !== revision) return false
  return run.text === undefined || text === undefined ? id !== '' : run.text === text
}

/** What is committed stays, whoever keeps a run that does not know of it. */
function withCommitted(run: Run, before: Run): Run {
  const isNew = (at: number) => before.committed[at] === true && run.committed[at] !== true
  const steps = Array.from({ length: Math.max(run.responses.length, before.responses.length) }, (_, at) => at)
  return {
    ...run,
    text: run.text ?? before.text,
    responses: steps.map(at => (isNew(at) ? before : run).responses[at] ?? null),
    committed: steps.map(at => isNew(at) || run.committed[at] === true),
  }
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
  const { id, revision, text, seed, step, responses, committed } = value
  const areNumbers = [revision, seed, step].every(number => Number.isSafeInteger(number) && Number(number) >= 0)
  const areResponses =
    Array.isArray(responses) && responses.every(response => response === null || responseOf(response) !== null)
  const areCommitted = Array.isArray(committed) && committed.every(one => typeof one === 'boolean')
  return isText(id) && (text === undefined || isText(text)) && areNumbers && areResponses && areCommitted
}
