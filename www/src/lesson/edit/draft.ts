// The lesson that is written: what is edited, undone, and kept. Views take pieces of it
// through `useDraft` and change it through `edit`, never otherwise.

import type { Lesson, LessonFlaw, LessonRig } from '../../../generated/contract'
import { usePiece } from '../../base/use-piece'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import {
  drafts,
  dropDraft,
  whenDraftsChange,
  keepDraft,
  newLesson,
  type Draft,
  type DraftLesson,
  type DraftStep,
} from '../../screen/lesson-drafts'
import { rigWanted, wantRig } from '../../screen/rig-wanted'
import { getState } from '../../screen/store'
import { leaveOut, lessonAfter, stepAfter, withoutSilent } from './variants'

export interface Writing {
  readonly lesson: DraftLesson
  readonly saved: string
  /** The states before the steps that can be undone, and those behind the ones that were. */
  readonly done: readonly DraftLesson[]
  readonly undone: readonly DraftLesson[]
  /** The step whose form is open, by its key; nothing for the lesson itself. */
  readonly chosen: string | null
  /** The lesson as it is read, and what is wrong with it; nothing until it was. */
  readonly read: { readonly lesson: Lesson | null; readonly flaws: readonly LessonFlaw[] }
  /** Whether the browser keeps it. */
  readonly kept: boolean
}

/** So many steps can be undone. */
const MOST_STEPS = 200
/** Typing rests so long before the lesson is read again, in ms. */
const REST = 400
const NOT_READ = { lesson: null, flaws: [] }

/** By what steps are known while they are moved and changed. */
const keys = new WeakMap<DraftStep, string>()
let lastKey = 0

let state: Writing | null = null
const listeners = new Set<() => void>()

function writing(): Writing {
  return (state ??= beginNewest())
}

/** What was worked on last; kept once more, which tells whether it is. */
function beginNewest(): Writing {
  const [newest] = drafts()
  if (newest === undefined) return begin({ lesson: newLesson(), saved: '' })
  return { ...begin(newest), kept: keepDraft(newest) }
}

function begin({ lesson, saved }: Draft): Writing {
  readSoon(0)
  return { lesson, saved, done: [], undone: [], chosen: null, read: NOT_READ, kept: true }
}

export const getDraft = writing

export function useDraft<T>(select: (state: Writing) => T): T {
  return usePiece(listeners, writing, select)
}

function put(change: Partial<Writing>): void {
  state = { ...writing(), ...change }
  for (const listener of [...listeners]) listener()
}

/** Opens what was worked on last, with what calculators did to it since, at one of its steps. */
export function openNewest(step: number | null): void {
  const [newest] = drafts()
  if (newest === undefined) return
  if (newest.lesson.id !== writing().lesson.id) open(newest)
  else catchUp(newest)
  takeRig()
  if (step !== null) choose(keyOf(writing().lesson.steps[step - 1]))
}

// A calculator in another tab may add to it.
whenDraftsChange(() => {
  if (state === null) return
  const { id } = state.lesson
  const other = drafts().find(({ lesson }) => lesson.id === id)
  if (other !== undefined) catchUp(other)
})

/** Takes over what was changed elsewhere, as a step to be undone; steps keep the keys that they have here. */
function catchUp({ lesson: next, saved }: Draft): void {
  // What was handed out elsewhere is handed out.
  if (saved !== '' && saved !== writing().saved) put({ saved })
  if (JSON.stringify(next) !== JSON.stringify(writing().lesson)) edit(lesson => keyed(lesson, next))
}

/** A lesson whose steps are known by the keys of those in their places before. */
function keyed(lesson: DraftLesson, next: DraftLesson): DraftLesson {
  const steps = next.steps.map((step, at) => {
    const before = lesson.steps[at]
    if (before !== undefined) keys.set(step, keyOf(before))
    return step
  })
  return { ...next, steps }
}

export function open(draft: Draft): void {
  merging = null
  put(begin(draft))
  put({ kept: keepDraft(draft) })
}

export function openNew(): void {
  open({ lesson: newLesson(), saved: '' })
}

/** Takes a lesson in from elsewhere; one of its name that is here already is kept beside it. */
export function takeIn(lesson: DraftLesson): void {
  const before = drafts().find(one => one.lesson.id === lesson.id)
  if (before !== undefined && JSON.stringify(before.lesson) !== JSON.stringify(lesson)) {
    const ids = drafts().map(({ lesson }) => lesson.id)
    let count = 2
    while (ids.includes(`${lesson.id}-${count}`)) count++
    const title = say('lesson-edit-before', { title: before.lesson.title ?? '' })
    keepDraft({ ...before, lesson: { ...before.lesson, id: `${lesson.id}-${count}`, title } })
  }
  open({ lesson, saved: textOf(lesson) })
}

/** Lets a lesson go that is kept on this device. */
export function letGo(id: string): void {
  dropDraft(id)
  if (writing().lesson.id !== id) return
  merging = null
  put(beginNewest())
}

let merging: string | null = null

/** Changes the lesson, as one step to be undone; changes with the same `merge` one after the other are one. */
export function edit(change: (lesson: DraftLesson) => DraftLesson, merge: string | null = null): void {
  const { lesson, done } = writing()
  const next = change(lesson)
  if (next === lesson) return
  const isSame = merge !== null && merge === merging
  merging = merge
  changed({ lesson: next, done: (isSame ? done : [...done, lesson]).slice(-MOST_STEPS), undone: [] })
}

/** A state from before or behind, under the present revision: none is handed out with two texts. */
function underRevision(lesson: DraftLesson, { revision }: DraftLesson): DraftLesson {
  return { ...lesson, revision }
}

export function undo(): void {
  const { lesson, done, undone } = writing()
  const before = done.at(-1)
  if (before === undefined) return
  merging = null
  changed({ lesson: underRevision(before, lesson), done: done.slice(0, -1), undone: [...undone, lesson] })
}

export function redo(): void {
  const { lesson, done, undone } = writing()
  const next = undone.at(-1)
  if (next === undefined) return
  merging = null
  changed({ lesson: underRevision(next, lesson), done: [...done, lesson], undone: undone.slice(0, -1) })
}

function changed(change: Pick<Writing, 'lesson' | 'done' | 'undone'>): void {
  put({ ...change, kept: keepDraft({ lesson: change.lesson, saved: writing().saved }) })
  readSoon(REST)
}

export function choose(chosen: string | null): void {
  merging = null
  put({ chosen })
}

/** By what a step is known while it is moved and changed. */
export function keyOf(step: DraftStep | undefined): string {
  if (step === undefined) return ''
  const key = keys.get(step) ?? `step-${lastKey++}`
  keys.set(step, key)
  return key
}

/** Changes a step; what is left empty is left out. */
export function editStep(key: string, part: Partial<DraftStep>, merge: string | null = null): void {
  edit(
    lesson => {
      const steps = lesson.steps.map(step => (keyOf(step) === key ? lean(stepAfter(step, { ...step, ...part })) : step))
      return keyed(lesson, withoutSilent({ ...lesson, steps }))
    },
    merge === null ? null : `${key} ${merge}`,
  )
}

export function editHead(part: Partial<DraftLesson>, merge: string | null = null): void {
  edit(lesson => keyed(lesson, lean(withoutSilent(lessonAfter(lesson, { ...lesson, ...part })))), merge)
}

/** Leaves the texts in a language out. */
export function leaveOutLanguage(tag: string): void {
  edit(lesson => keyed(lesson, leaveOut(lesson, tag)))
}

/** What is there even where it is empty. */
const KEPT = ['kind', 'id', 'steps']
const EMPTY = ['""', '[]', '{}', 'null']

/** Without what says nothing. */
export function lean<T extends object>(whole: T): T {
  const says = ([key, value]: [string, unknown]) =>
    KEPT.includes(key) || (value !== undefined && !EMPTY.includes(JSON.stringify(value)))
  return Object.fromEntries(Object.entries(whole).filter(says)) as T
}

/** The lesson of a file that was read, without what the core says where nothing is said. */
export function draftOf(lesson: Lesson): DraftLesson {
  const step = ({ best, points, source, as_it_is, ...others }: Lesson['steps'][number]): DraftStep => ({
    ...lean(others),
    ...(points === 0 ? {} : { points }),
    ...(best === 'least' ? {} : { best }),
    ...(source === 'bass' ? {} : { source }),
    ...(as_it_is ? { as_it_is } : {}),
  })
  const rig = lesson.rig.calculator === '' ? undefined : lesson.rig
  return { ...lean({ ...lesson, rig }), steps: lesson.steps.map(step) }
}

/** What is wrong with a rig that was looked for is no matter here: it is taken as it is. */
function takeRig(): void {
  const wanted = rigWanted()
  if (wanted === null) return
  wantRig(null)
  const { lesson } = writing()
  if (wanted.taken !== null && wanted.lesson === lesson.id) putRig(wanted.step, wanted.taken)
}

/** Puts a rig in place of that of the lesson or of one of its steps. */
export function putRig(at: number | null, rig: LessonRig): void {
  if (at === null) return editHead({ rig })
  const { steps } = writing().lesson
  const step = steps[at]
  // Its own values were for the rig that it had.
  if (step !== undefined) editStep(keyOf(step), { rig, values: undefined })
}

let timer: ReturnType<typeof setTimeout> | undefined

function readSoon(after: number): void {
  clearTimeout(timer)
  timer = setTimeout(() => void read(), after)
}

async function read(): Promise<void> {
  const { lesson } = writing()
  const read = await askStage('lesson_read', lesson, getState().settings)
  if (writing().lesson === lesson) put({ read })
}

/** The lesson as it is now, for whoever plays or checks it. */
export async function readNow(): Promise<Lesson | null> {
  clearTimeout(timer)
  await read()
  return writing().read.lesson
}

/** What of a lesson makes a revision. */
function textOf(lesson: DraftLesson): string {
  return JSON.stringify({ ...lesson, revision: 0 })
}

/** The lesson as it would be handed out: where it is another than was handed out before, its revision counts up. */
export function toHandOut({ lesson, saved }: Draft): DraftLesson {
  return saved === '' || saved === textOf(lesson) ? lesson : { ...lesson, revision: lesson.revision + 1 }
}

/** The same, once it is handed out. */
export function handOut(): DraftLesson {
  const before = writing()
  const lesson = toHandOut(before)
  const saved = textOf(lesson)
  if (saved !== before.saved) put({ lesson, saved, kept: keepDraft({ lesson, saved }) })
  return lesson
}
