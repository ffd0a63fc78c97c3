// The lesson that is open: one state, for learner, trainer and packages alike.

import type { Dealt, Lesson, LessonFlaw, LessonResponse, LessonStep, Marked, Settings } from '../../generated/contract'
import { language } from '../base/language'
import { isLong } from '../base/limit'
import { usePiece } from '../base/use-piece'
import { askStage } from '../engine/stage'
import * as address from '../screen/address'
import { writeLesson } from '../screen/link'
import { DEFAULTS } from '../screen/settings'
import { getState, isEmbedded, setState } from '../screen/store'
import { readLessonAddress, writeLessonAddress, type LessonAddress } from './address'
import { translateWanted } from './bench'
import { NO_RESPONSE, responseOf } from './response'
import { keepRun, runOf, whenRunsChange, type Run } from './runs'

export { NO_RESPONSE }

export interface LessonState {
  /** The lesson as its address names it. */
  readonly what: string
  readonly lesson: Lesson
  /** The language of its file, in which it is told where it has none of the reader's. */
  readonly own: string
  /** What is wrong with its file. */
  readonly flaws: readonly LessonFlaw[]
  /** By what its text is known. */
  readonly text: string
  /** As its file has it, in all its languages. */
  readonly file: unknown
  readonly seed: number
  readonly dealt: Dealt
  /** The step on the screen, from 0 on; behind the last one stands the result. */
  readonly step: number
  /** What is answered to each step, or is about to be. Quantities stand as a lesson writes them once they are committed. */
  readonly responses: readonly LessonResponse[]
  /** What the committed ones are worth. */
  readonly marked: readonly (Marked | null)[]
  /** Whether the browser keeps it. */
  readonly kept: boolean
  /** What the link said of the seed, where nobody can read it. */
  readonly odd: string
}

const ASKING = ['number', 'magnitude', 'curve', 'target', 'fault', 'choice', 'ear']
/** Seeds that are dealt here are short enough to be read out. */
const SEEDS = 99_999

let state: LessonState | null = null
/** The settings that its marks are told under. */
let under: Settings | null = null
/** How many lessons were opened, or are about to be. */
let openings = 0
const listeners = new Set<() => void>()

export function lessonState(): LessonState | null {
  return state
}

/** A piece of the state of the open lesson; the view is drawn again when the piece is another. */
export function useLesson<T>(select: (state: LessonState | null) => T): T {
  return usePiece(listeners, lessonState, select)
}

function change(part: Partial<LessonState>): void {
  if (state === null) return
  state = { ...state, ...part }
  for (const listener of [...listeners]) listener()
}

/** Whether something is to be answered at a step. */
export function asks({ kind }: Pick<LessonStep, 'kind'>): boolean {
  return ASKING.includes(kind)
}

export function newSeed(): number {
  const [drawn = 0] = crypto.getRandomValues(new Uint32Array(1))
  return 1 + (drawn % SEEDS)
}

/** Opens a lesson where this device left it, or where the address says. */
export async function openLesson(
  { what, seed: wanted, step: at, odd = '' }: Pick<LessonAddress, 'what' | 'seed' | 'step' | 'odd'>,
  { lesson: read, own, flaws, text, file }: Pick<LessonState, 'lesson' | 'own' | 'flaws' | 'text' | 'file'>,
): Promise<void> {
  const opening = ++openings
  const lesson = await askStage('lesson_told', read, language)
  const { id, revision } = lesson
  const run = runOf({ id, revision, text }, wanted)
  const seed = run?.seed ?? wanted ?? newSeed()
  const dealt = await askStage('lesson_deal', lesson, seed)
  const responses = lesson.steps.map((_, step) => responseOf(run?.responses[step]) ?? NO_RESPONSE)
  const unmarked = lesson.steps.map(() => null)
  const opened = { what, lesson, own, flaws, text, file, seed, dealt, responses, marked: unmarked, kept: true, odd }
  const isCommitted = (step: number) => run?.committed[step] === true
  const { settings } = getState()
  const marked = await marks(opened, isCommitted)
  // Another one was opened meanwhile, or somebody went elsewhere.
  if (opening !== openings || isElsewhere(what)) return
  under = settings
  state = { ...opened, marked, step: placeIn({ lesson, marked }, at === null ? (run?.step ?? 0) : at - 1) }
  follow('in place')
  for (const listener of [...listeners]) listener()
  // The settings may be others by now.
  await markAgain()
}

/** Whether the address is that of another lesson, or of none. */
function isElsewhere(what: string): boolean {
  const { place } = getState()
  return place.kind === 'lesson' && readLessonAddress(place.rest).what !== what
}

/** Marks the committed responses again where the settings are others than they are told under. */
export async function markAgain(): Promise<void> {
  const { settings } = getState()
  if (state === null || under === settings) return
  under = settings
  const { lesson, seed, marked: before } = state
  const marked = await marks(state, step => before[step] !== null)
  if (state.lesson !== lesson || state.seed !== seed || under !== settings) return
  // What was committed meanwhile stays, and what cannot be marked now.
  change({ marked: state.marked.map((one, step) => (before[step] === null ? one : (marked[step] ?? one))) })
}

function marks(of: LessonState | Omit<LessonState, 'step'>, isCommitted: (step: number) => boolean) {
  return Promise.all(
    of.lesson.steps.map(async (_, step) => {
      if (!isCommitted(step)) return null
      const marked = await mark(of, step).catch(() => null)
      return marked?.problem === null ? marked : null
    }),
  )
}

function mark(of: Omit<LessonState, 'step'>, step: number): Promise<Marked | null> {
  const { settings } = getState()
  const response = of.responses[step] ?? NO_RESPONSE
  const text = translateWanted(of, step, response.text, DEFAULTS, settings)
  return askStage('lesson_mark', of.lesson, of.seed, step, { ...response, text }, settings)
}

/** How a number that is about to be answered is understood; empty where it is not. */
export async function understood(
  { lesson, seed, responses }: LessonState,
  step: number,
  settings: Settings,
): Promise<string> {
  const marked = await askStage('lesson_mark', lesson, seed, step, responses[step] ?? NO_RESPONSE, settings)
  return marked?.problem === null ? marked.said_text : ''
}

function inside({ steps }: Lesson, step: number): number {
  return Math.min(Math.max(step, 0), steps.length)
}

/** The step at this place; instead of one far behind the last, the first that is left to be answered. */
function placeIn({ lesson, marked }: Pick<LessonState, 'lesson' | 'marked'>, step: number): number {
  if (step <= lesson.steps.length) return inside(lesson, step)
  const left = lesson.steps.findIndex((one, at) => asks(one) && marked[at] === null)
  return left === -1 ? lesson.steps.length : left
}

/** Puts something into the response to a step that is not committed yet. */
export function respond(part: Partial<LessonResponse>, at = state?.step ?? 0): void {
  if (state === null || state.marked[at] !== null) return
  change({ responses: state.responses.map((one, step) => (step === at ? { ...one, ...part } : one)) })
  keepNow()
}

/** Commits the response to the step on the screen; what is wrong with it is answered, and nothing is committed then. */
export async function commit(): Promise<Marked['problem']> {
  if (state === null) return null
  const before = state
  const at = before.step
  const typed = before.responses[at] ?? NO_RESPONSE
  const text = translateWanted(before, at, typed.text, getState().settings, DEFAULTS)
  const responses = before.responses.map((one, step) => (step === at ? { ...one, text } : one))
  const marked = await mark({ ...before, responses }, at)
  if (marked === null || marked.problem !== null) return marked?.problem ?? null
  // Something else was opened or typed meanwhile.
  if (state.lesson !== before.lesson || state.seed !== before.seed || state.responses[at] !== typed) return null
  change({
    responses: state.responses.map((one, step) => (step === at ? { ...one, text } : one)),
    marked: state.marked.map((one, step) => (step === at ? marked : one)),
  })
  keepNow()
  return null
}

/** Goes to a step, which the way back of the browser leads back from. */
export function go(step: number): void {
  if (state === null || inside(state.lesson, step) === state.step) return
  // What was odd about the link was read by now.
  change({ step: inside(state.lesson, step), odd: '' })
  keepNow()
  follow('step')
}

/** The address says another step. */
export function gone(step: number): void {
  if (state === null) return
  const place = placeIn(state, step)
  if (place !== state.step) {
    change({ step: place })
    keepNow()
  }
  if (place !== step) follow('in place')
}

/** The same lesson with other values, from its beginning. */
export async function again(): Promise<void> {
  if (state === null) return
  await openLesson({ what: state.what, seed: newSeed(), step: 1 }, state)
}

function keepNow(): void {
  if (state === null) return
  const kept = keepRun(runFrom(state))
  if (kept !== state.kept) change({ kept })
}

/** What is kept of a lesson, to go on from. */
export function runFrom({ lesson, text, seed, step, responses, marked }: LessonState): Run {
  return {
    id: lesson.id,
    revision: lesson.revision,
    text,
    seed,
    step,
    responses: responses.map(one => (JSON.stringify(one) === JSON.stringify(NO_RESPONSE) ? null : one)),
    committed: marked.map(one => one !== null),
  }
}

// What is committed in another tab is committed here.
whenRunsChange(() => void takeCommitted())

async function takeCommitted(): Promise<void> {
  if (state === null) return
  const { lesson, text, seed, responses, marked } = state
  const run = runOf({ id: lesson.id, revision: lesson.revision, text }, seed)
  const isNew = (step: number) => run?.committed[step] === true && marked[step] === null
  if (!marked.some((_, step) => isNew(step))) return
  const there = responses.map((one, step) => (isNew(step) ? (responseOf(run?.responses[step]) ?? one) : one))
  const more = await marks({ ...state, responses: there }, isNew)
  if (state.lesson !== lesson || state.seed !== seed) return
  const before = state
  const isTaken = (step: number) => before.marked[step] === null && (more[step] ?? null) !== null
  change({
    responses: before.responses.map((one, step) => (isTaken(step) ? (there[step] ?? one) : one)),
    marked: before.marked.map((one, step) => (isTaken(step) ? (more[step] ?? null) : one)),
  })
}

/** The address follows the lesson. */
function follow(how: 'step' | 'in place'): void {
  const { place } = getState()
  if (state === null || place.kind !== 'lesson') return
  const { what, view, result } = readLessonAddress(place.rest)
  // The editor and the collection may have the same lesson in their address.
  if (what !== state.what || view === 'edit' || result !== '') return
  const rest = writeLessonAddress({ what: state.what, seed: state.seed, step: state.step + 1, view })
  const hash = writeLesson(rest)
  setState({ place: { kind: 'lesson', rest } })
  // A frame leaves the history of the page around it alone.
  if (isLong(hash) || isEmbedded(getState())) return
  if (how === 'step') address.push(hash)
  else address.replaceSoon(() => hash)
}
