// A lesson that a learning system opened: it waits for what an earlier attempt left, and
// tells what is answered to the page around it. One run counts there, the first one, until
// it is finished; all others are practice.

import { useEffect } from 'preact/hooks'
import { VERSION, isReadable, type Attempt, type FromLesson, type ToLesson } from '../../launch/messages'
import { usePiece } from '../base/use-piece'
import { attemptOf, isDone, readKept, type Given } from './attempt'
import { lessonState, openLesson, runFrom, useLesson, type LessonState } from './lesson-state'
import { keepRun, runOf, type Run } from './runs'

export interface Launched {
  /** Whether a learning system opened the lesson. */
  readonly is: boolean
  /** Whether it has said what an earlier attempt left, or is not waited for any longer. */
  readonly isHere: boolean
  /** Whether it is reached, and whether what is done counts there. */
  readonly system: 'unreached' | 'looking' | 'counts'
  /** The run that counts; nothing as long as there is none. */
  readonly run: Run | null
  readonly isFinished: boolean
  /** What it did not take, in its words; nothing where it took all. */
  readonly refused: string | null
  /** Whether it says where a learner goes back to. */
  readonly wayBack: boolean
}

/**
 * What becomes of what is answered: it counts, or will once the system is reached; it does not in
 * looking around, in a run beside an unfinished one, or beside a finished one, or after the end.
 */
export type Standing = Launched['system'] | 'practice' | 'over' | 'finished'

type Begin = Extract<ToLesson, { readonly what: 'begin' }>

/** So long it may take to begin, in milliseconds. */
const PATIENCE = 15_000
/** Whether a learning system opened the lesson. */
export const isLaunched = window.parent !== window && /[?&]launched(&|$)/.test(location.hash)

let launched: Launched = {
  is: isLaunched,
  isHere: !isLaunched,
  system: 'unreached',
  run: null,
  isFinished: false,
  refused: null,
  wayBack: false,
}
const listeners = new Set<() => void>()
/** The answers of the run that counts, and how many of them are of earlier sessions. */
let given: readonly Given[] = []
let earlier = 0
/** When the step on the screen was opened. */
let opened = 0
/** Where that run stands, as long as the system is not reached. */
let waiting: Attempt | null = null
/** What was answered first is told first. */
let telling = Promise.resolve()

export function useLaunched(): Launched {
  return usePiece(listeners, get, itself)
}

const get = () => launched
const itself = (launched: Launched) => launched

function change(part: Partial<Launched>): void {
  launched = { ...launched, ...part }
  for (const listener of [...listeners]) listener()
}

export function standingOf({ system, run, isFinished }: Launched, state: LessonState | null): Standing {
  if (system !== 'counts') return system
  const isIts = run === null ? !isFinished : state === null || isOf(run, state)
  if (isIts) return isFinished ? 'finished' : 'counts'
  return isFinished ? 'over' : 'practice'
}

/** Whether the run that counts can be gone back to, from another one of the same lesson. */
export function hasOtherRun({ system, run }: Launched, state: LessonState | null): boolean {
  return system !== 'looking' && run !== null && state !== null && isOfLesson(run, state) && !isOf(run, state)
}

function isOfLesson({ id, revision }: Run, { lesson }: LessonState): boolean {
  return id === lesson.id && revision === lesson.revision
}

function isOf(run: Run, state: LessonState): boolean {
  return isOfLesson(run, state) && run.seed === state.seed
}

/** Joins the lesson to the page around it, as long as it is on the screen. */
export function useLaunch(): void {
  useEffect(() => {
    if (!isLaunched) return
    const heard = ({ source, data }: MessageEvent<ToLesson>) => {
      if (source === window.parent && isReadable(data, 'stageohm:launch')) void hear(data)
    }
    addEventListener('message', heard)
    const late = setTimeout(() => change({ isHere: true }), PATIENCE)
    tell({ type: 'stageohm:lesson', version: VERSION, what: 'ready' })
    return () => {
      removeEventListener('message', heard)
      clearTimeout(late)
    }
  }, [])
  const state = useLesson(state => state)
  const { system } = useLaunched()
  const { seed, step, marked } = state ?? {}
  useEffect(() => {
    opened = Date.now()
  }, [seed, step])
  useEffect(() => {
    const state = lessonState()
    if (isLaunched && state !== null) follow(state)
  }, [seed, step, marked, system])
}

async function hear(message: ToLesson): Promise<void> {
  if (message.what === 'kept') change({ refused: message.taken ? null : message.why })
  else if (message.what === 'unreached') change({ isHere: true })
  else await begin(message)
}

async function begin({ kept: text, counts, finished, wayBack }: Begin): Promise<void> {
  const kept = await readKept(text)
  const reached = { isHere: true, system: counts ? 'counts' : 'looking', wayBack } as const
  if (kept !== null) {
    const run = { ...kept, committed: kept.responses.map(one => one !== null) }
    keepRun(run)
    given = kept.given
    earlier = given.length
    change({ ...reached, run, isFinished: kept.done })
    // Nothing was answered while the system was not reached.
    if (lessonState()?.marked.every(one => one === null) === true) await backToRun()
  } else if (finished) change({ ...reached, run: null, isFinished: true })
  else {
    change(reached)
    telling = telling.then(() => {
      if (waiting !== null && counts)
        tell({ type: 'stageohm:lesson', version: VERSION, what: 'attempt', attempt: waiting })
    })
  }
}

/** Tells where the run that counts stands; the first one is the one. */
function follow(state: LessonState): void {
  const { system, run, isFinished } = launched
  if (system === 'looking' || isFinished) return
  if (run !== null && !isOf(run, state)) {
    if (isOfLesson(run, state)) return
    // It was of another revision, and is not finished: this one begins anew.
    given = []
    earlier = 0
  }
  tellRun(state, isDone(state))
}

function tellRun(state: LessonState, done: boolean): void {
  given = withNew(state, given)
  const told = { given, earlier, done }
  change({ run: runFrom(state), isFinished: done })
  telling = telling.then(async () => {
    const attempt = await attemptOf(state, told)
    // An earlier one was found meanwhile.
    if (launched.run === null || !isOf(launched.run, state)) return
    if (launched.system === 'counts') tell({ type: 'stageohm:lesson', version: VERSION, what: 'attempt', attempt })
    else waiting = attempt
  })
}

/** Finishes the run that counts: steps that are left count as not answered. */
export function finishHere(): void {
  const state = lessonState()
  if (state !== null) tellRun(state, true)
}

/** Opens the run that counts again. */
export async function backToRun(): Promise<void> {
  const state = lessonState()
  const { run } = launched
  if (state === null || run === null) return
  // Others may have taken its place on this device.
  if (runOf(run, run.seed) === undefined) keepRun(run)
  await openLesson({ what: state.what, seed: run.seed, step: null }, state)
}

/** Ends the lesson for the learning system, which the page around it then shows again. */
export function leave(): void {
  tell({ type: 'stageohm:lesson', version: VERSION, what: 'leave' })
}

/** The answers in the order in which they were given. */
function withNew({ marked }: LessonState, given: readonly Given[]): readonly Given[] {
  const now = Date.now()
  const added = marked.flatMap((one, step) => (one === null || given.some(one => one.step === step) ? [] : [step]))
  return [...given, ...added.map(step => ({ step, took: now - opened, at: now }))]
}

function tell(message: FromLesson): void {
  // Whose page this is cannot be known; it was opened by the learner's own system.
  window.parent.postMessage(message, '*')
}
