// Results marked again from their responses, by the lesson that the trainer has: what a
// file says that it is worth is only compared.

import type { Dealt, Lesson, Marked, Settings } from '../../../generated/contract'
import { askStage } from '../../engine/stage'
import { DEFAULTS } from '../../screen/settings'
import { translateWanted } from '../bench'
import { asks } from '../lesson-state'
import { scoreOf } from '../points'
import type { HandedIn } from './handed-in'
import type { KnownLesson } from './known-lessons'
import { readResult, type Result, type Why } from './read-result'

/** What is to be told of a result beside its points. */
export type Note = 'unknown' | 'stale' | 'other' | 'several' | 'twice' | 'forged' | 'unreadable'

export interface Row {
  readonly source: string
  readonly result: Result
  /** Nothing where the lesson is not known, or is another revision. */
  readonly lesson: Lesson | null
  /** By what the text of that lesson is known; empty where there is none. */
  readonly text: string
  /** What the learner had; nothing where the lesson is not there. */
  readonly dealt: Dealt | null
  /** By step; nothing where nothing was answered or it cannot be read. */
  readonly marked: readonly (Marked | null)[]
  readonly notes: readonly Note[]
  readonly points: number
  readonly of: number
  /** What the file says; nothing where no answers could be worth that. */
  readonly said: number | null
}

export interface Unread {
  readonly source: string
  readonly why: Why
}

export interface Collected {
  readonly rows: readonly Row[]
  readonly unread: readonly Unread[]
}

/** Points are written to a hundredth, in a code to four figures, as a curve is. */
const ALIKE = 0.03
const ALIKE_SHARE = 5e-4
/** No step is worth more. */
const MOST_POINTS = 1000

export async function collect(
  all: readonly HandedIn[],
  lessons: readonly KnownLesson[],
  settings: Settings,
): Promise<Collected> {
  const rows: Row[] = []
  const unread: Unread[] = []
  for (const one of all) {
    const result = readResult(one)
    if (typeof result === 'string') unread.push({ source: one.source, why: result })
    else rows.push(await rowOf(one.source, result, lessons, settings))
  }
  const told = rows.map(row =>
    ofOne(rows, row).length > 1 ? { ...row, notes: [...row.notes, 'twice' as const] } : row,
  )
  return { rows: told, unread }
}

/** Each learner once with each seed: of what was handed in more than once, what answers most. */
export function eachOnce(rows: readonly Row[]): Row[] {
  const answers = ({ marked }: Row) => marked.filter(one => one !== null).length
  return rows.filter(row => {
    const own = ofOne(rows, row)
    return own.find(other => answers(other) === Math.max(...own.map(answers))) === row
  })
}

/** All that the learner of a row handed in with its values. */
function ofOne(rows: readonly Row[], row: Row): Row[] {
  return rows.filter(other => whoseOf(other) === whoseOf(row))
}

function whoseOf({ result: { id, name, seed, responses } }: Row): string {
  // Those who left no name are one only where they answer the same.
  return JSON.stringify([id, name.toLowerCase(), seed, name === '' ? responses : null])
}

async function rowOf(
  source: string,
  result: Result,
  lessons: readonly KnownLesson[],
  settings: Settings,
): Promise<Row> {
  const { lesson, text, notes: first } = lessonOf(result, lessons)
  const said = saidBy(result, lesson)
  if (lesson === null)
    return { source, result, lesson, text, dealt: null, marked: [], notes: first, points: 0, of: 0, said }
  const { dealt, marked, unreadable } = await marksOnce(lesson, result, settings)
  const { points, of } = scoreOf({ lesson, marked })
  const isForged = result.points.some(
    (one, at) => Math.abs((one ?? 0) - (marked[at]?.points ?? 0)) > roundingOf(one ?? 0),
  )
  const notes: Note[] = [
    ...first,
    ...(unreadable ? ['unreadable' as const] : []),
    ...(isForged ? ['forged' as const] : []),
  ]
  return { source, result, lesson, text, dealt, marked, notes, points, of, said }
}

/** The lesson to mark a result by, and what is to be told of that. */
function lessonOf(
  { id, revision, text }: Result,
  lessons: readonly KnownLesson[],
): { readonly lesson: Lesson | null; readonly text: string; readonly notes: readonly Note[] } {
  const ofName = lessons.filter(({ lesson }) => lesson.id === id)
  const ofRevision = ofName.filter(({ lesson }) => lesson.revision === revision)
  // One that was only looked at does not take the place of one that the trainer has.
  const own = ofRevision.filter(({ isOpen }) => !isOpen)
  const candidates = own.length > 0 ? own : ofRevision
  const same = candidates.find(one => one.text === text)
  // Without a name nothing but the text says which it is.
  const found = same ?? (id === '' && text !== '' ? undefined : candidates[0])
  if (found === undefined)
    return { lesson: null, text: '', notes: [ofName.length > 0 && id !== '' ? 'stale' : 'unknown'] }
  const isOther = text !== '' && found.text !== text
  const areSeveral = text === '' && ofRevision.some(one => one.text !== found.text)
  const notes: Note[] = [...(isOther ? ['other' as const] : []), ...(areSeveral ? ['several' as const] : [])]
  return { lesson: found.lesson, text: found.text, notes }
}

/** So far off points may be for how they are written. */
function roundingOf(points: number): number {
  return ALIKE + ALIKE_SHARE * Math.abs(points)
}

/** What a result says that it is worth; nothing where one of its steps is said to be worth what none can be. */
function saidBy({ points }: Result, lesson: Lesson | null): number | null {
  const most = (at: number) => (lesson === null ? MOST_POINTS : (lesson.steps[at]?.points ?? 0))
  const isBeyond = points.some((one, at) => one !== null && (one < 0 || one > most(at) + roundingOf(one)))
  return isBeyond ? null : points.reduce<number>((sum, one) => sum + (one ?? 0), 0)
}

interface Marks {
  readonly dealt: Dealt
  readonly marked: readonly (Marked | null)[]
  /** Whether something in it is no response. */
  readonly unreadable: boolean
}

/** What was marked is not marked again when another file comes. */
const known = new Map<string, Promise<Marks>>()

function marksOnce(lesson: Lesson, result: Result, settings: Settings): Promise<Marks> {
  const of = JSON.stringify([lesson, result.seed, result.responses, result.unreadable, settings])
  const marks = known.get(of) ?? marksOf(lesson, result, settings)
  known.set(of, marks)
  return marks
}

async function marksOf(
  lesson: Lesson,
  { seed, responses, unreadable: isBad }: Result,
  settings: Settings,
): Promise<Marks> {
  const dealt = await askStage('lesson_deal', lesson, seed)
  const marked: (Marked | null)[] = []
  let unreadable = isBad || responses.length > lesson.steps.length
  for (const [at, step] of lesson.steps.entries()) {
    const response = responses[at] ?? null
    if (response === null || !asks(step)) {
      marked.push(null)
      continue
    }
    try {
      const text = translateWanted({ lesson, dealt }, at, response.text, DEFAULTS, settings)
      const one = await askStage('lesson_mark', lesson, seed, at, { ...response, text }, settings)
      marked.push(one?.problem === null ? one : null)
      if (one?.problem !== null) unreadable = true
    } catch {
      // No response to this step.
      marked.push(null)
      unreadable = true
    }
  }
  return { dealt, marked, unreadable }
}
