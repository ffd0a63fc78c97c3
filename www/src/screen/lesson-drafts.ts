// The lessons that are being written on this device, the one that was worked on last
// first. Calculators add steps to it; the editor does the rest.

import type { Lesson, LessonRig, LessonStep } from '../../generated/contract'
import { language } from '../base/language'
import { keep, loadList, whenKeptElsewhere } from '../base/kept'
import { areTexts, fits, isDeep, isRecord, isText, type Check } from '../base/shape'
import { writeLesson } from './link'
import { DEFAULTS } from './settings'

declare const STAGEOHM_VERSION: string

/** The address of the editor with the lesson that is being written. */
export const EDITOR = editorAt(null)

/** The same, at one of its steps. */
export function editorAt(step: number | null): string {
  return writeLesson(`/draft?${step === null ? '' : `step=${step}&`}view=edit`)
}

/** What may be said of something, or left open. */
type Open<T> = { readonly [Key in keyof T]?: T[Key] | undefined }
/** A number, or what was typed in its place. */
export type Typed = number | string

/** A step as it is written: what is left open is as the core has it. */
export type DraftStep = Open<Omit<LessonStep, 'kind' | 'points' | 'budget' | 'trials' | 'enough'>> & {
  readonly kind: string
  readonly points?: Typed | undefined
  readonly budget?: Typed | null | undefined
  readonly trials?: Typed | null | undefined
  readonly enough?: Typed | null | undefined
}

/** A lesson as it is written. */
export type DraftLesson = Open<Omit<Lesson, 'id' | 'revision' | 'steps' | 'minutes' | 'pass'>> & {
  readonly id: string
  readonly revision: number
  readonly minutes?: Typed | undefined
  readonly pass?: Typed | undefined
  readonly steps: readonly DraftStep[]
}

export interface Draft {
  readonly lesson: DraftLesson
  /** What was handed out last, without its revision; empty where nothing was. */
  readonly saved: string
}

const DRAFTS = 'lesson-drafts'

export function drafts(): Draft[] {
  return loadList(DRAFTS, isDraft)
}

/** Keeps a draft as the one that is worked on; answers whether the browser took it. */
export function keepDraft(draft: Draft): boolean {
  return keep(DRAFTS, [draft, ...drafts().filter(({ lesson }) => lesson.id !== draft.lesson.id)])
}

export function dropDraft(id: string): void {
  keep(
    DRAFTS,
    drafts().filter(({ lesson }) => lesson.id !== id),
  )
}

/** Calls `listener` when another tab changes them. */
export function whenDraftsChange(listener: () => void): void {
  whenKeptElsewhere(DRAFTS, listener)
}

/** An empty lesson, in the language of who writes it. */
export function newLesson(): DraftLesson {
  const [drawn = 0] = crypto.getRandomValues(new Uint32Array(1))
  return {
    stageohm: 'lesson',
    version: 1,
    id: `lesson-${drawn.toString(36)}`,
    revision: 1,
    engine: STAGEOHM_VERSION,
    language,
    minutes: 20,
    pass: 0.6,
    steps: [],
  }
}

/** Adds a step with its rig to a lesson: what differs from the rig of the lesson is what it says. */
export function withStep(lesson: DraftLesson, rig: LessonRig, step: DraftStep): DraftLesson {
  if (lesson.rig === undefined || lesson.rig.calculator === '') {
    return { ...lesson, rig, steps: [...lesson.steps, step] }
  }
  const { calculator, mains, values } = lesson.rig
  if (calculator !== rig.calculator || mains !== rig.mains) {
    return { ...lesson, steps: [...lesson.steps, { ...step, rig }] }
  }
  const other = Object.entries(rig.values).filter(([id, text]) => values[id] !== text)
  const own = other.length === 0 ? {} : { values: Object.fromEntries(other) }
  return { ...lesson, steps: [...lesson.steps, { ...step, ...own }] }
}

/** The settings under which the texts of a lesson are written. */
export function written(mains: LessonRig['mains']) {
  return { ...DEFAULTS, mains }
}

const listOf =
  (isOne: Check): Check =>
  value =>
    Array.isArray(value) && value.every(isOne)
const byName =
  (isOne: Check): Check =>
  value =>
    isRecord(value) && Object.values(value).every(isOne)
const orNothing =
  (isOne: Check): Check =>
  value =>
    value === null || isOne(value)
const isNumber: Check = value => typeof value === 'number'
const isFlag: Check = value => typeof value === 'boolean'
const isTyped: Check = value => isText(value) || isNumber(value)

const VALUES = byName(isText)
const RIG: Check = value =>
  fits({ calculator: isText, mains: isText, values: VALUES })(value) &&
  isRecord(value) &&
  ['calculator', 'mains', 'values'].every(key => key in value)
const VARIANTS = byName(
  fits({ title: isText, text: isText, because: isText, note: isText, hints: areTexts, names: areTexts }),
)
const NAMED = listOf(fits({ name: isText, values: VALUES }))

const STEP: Record<keyof DraftStep, Check> = {
  ...{ kind: isText, title: isText, text: isText, because: isText, note: isText, reading: isText, plot: isText },
  ...{ trace: isText, good: isText, none: isText, from: isText, to: isText, best: isText },
  ...{ hints: areTexts, open: areTexts, given: areTexts, measures: areTexts },
  ...{ points: isTyped, budget: orNothing(isTyped), rig: orNothing(RIG), values: VALUES, variants: VARIANTS },
  ...{ cases: NAMED, ways: NAMED, limits: listOf(fits({ reading: isText, least: isText, most: isText })) },
  ...{ source: isText, trials: orNothing(isTyped), enough: orNothing(isTyped), as_it_is: isFlag },
  drawer: listOf(fits({ name: isText, field: isText, value: isText, cost: isTyped })),
}

const LESSON: Record<keyof DraftLesson, Check> = {
  ...{ stageohm: isText, version: isNumber, id: isText, revision: isNumber, engine: isText, language: isText },
  ...{ title: isText, by: isText, licence: isText, note: isText, minutes: isTyped, pass: isTyped },
  ...{ rig: RIG, variants: VARIANTS },
  draw: byName(fits({ of: areTexts, from: isText, to: isText, series: isText })),
  steps: listOf(step => fits(STEP)(step) && isRecord(step) && isText(step['kind'])),
}

/** Whether all that is read of a draft is of its shape: what is unfinished about it is another matter. */
function isDraft(value: unknown): value is Draft {
  if (!isRecord(value) || !isRecord(value['lesson']) || !isText(value['saved'])) return false
  const { id, revision, steps } = value['lesson']
  const isThere = isText(id) && isNumber(revision) && Array.isArray(steps)
  return isThere && fits(LESSON)(value['lesson']) && !isDeep(value)
}
