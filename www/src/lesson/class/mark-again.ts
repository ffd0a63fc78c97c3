// Results marked again from their responses, by the lesson that the trainer has: what a
// file says that it is worth is only compared.

import type { Lesson, Marked, Settings } from '../../../generated/contract'
import { askStage } from '../../engine/stage'
import { DEFAULTS } from '../../screen/settings'
import { translateWanted } from '../bench'
import { asks } from '../lesson-state'
import type { HandedIn } from './handed-in'
import { readResult, type Result, type Why } from './read-result'

/** What is to be told of a result beside its points. */
export type Note = 'unknown' | 'stale' | 'twice' | 'forged' | 'unreadable'

export interface Row {
  readonly source: string
  readonly result: Result
  /** Nothing where the lesson is not known, or is another revision. */
  readonly lesson: Lesson | null
  /** By step; nothing where nothing was answered or it cannot be read. */
  readonly marked: readonly (Marked | null)[]
  readonly notes: readonly Note[]
  readonly points: number
  readonly of: number
  /** What the file says. */
  readonly said: number
}

export interface Unread {
  readonly source: string
  readonly why: Why
}

export interface Collected {
  readonly rows: readonly Row[]
  readonly unread: readonly Unread[]
}

/** Points are written to a hundredth, and a curve in a code to four figures. */
const ALIKE = 0.03

export async function collect(
  all: readonly HandedIn[],
  lessons: readonly Lesson[],
  settings: Settings,
): Promise<Collected> {
  const rows: Row[] = []
  const unread: Unread[] = []
  for (const one of all) {
    const result = readResult(one)
    if (typeof result === 'string') unread.push({ source: one.source, why: result })
    else rows.push(await rowOf(one.source, result, lessons, settings))
  }
  const count = new Map<string, number>()
  for (const row of rows) count.set(whoseOf(row), (count.get(whoseOf(row)) ?? 0) + 1)
  const told = rows.map(row =>
    (count.get(whoseOf(row)) ?? 0) > 1 ? { ...row, notes: [...row.notes, 'twice' as const] } : row,
  )
  return { rows: told, unread }
}

function whoseOf({ result: { id, name, seed } }: Row): string {
  return JSON.stringify([id, name.toLowerCase(), seed])
}

async function rowOf(source: string, result: Result, lessons: readonly Lesson[], settings: Settings): Promise<Row> {
  const ofName = lessons.filter(({ id }) => id === result.id)
  const lesson = ofName.find(({ revision }) => revision === result.revision) ?? null
  const said = result.points.reduce<number>((sum, points) => sum + (points ?? 0), 0)
  if (lesson === null) {
    const notes: Note[] = [ofName.length > 0 ? 'stale' : 'unknown']
    return { source, result, lesson, marked: [], notes, points: 0, of: 0, said }
  }
  const { marked, unreadable } = await marksOnce(lesson, result, settings)
  const points = marked.reduce((sum, one) => sum + (one?.points ?? 0), 0)
  const isForged = result.points.some((one, at) => Math.abs((one ?? 0) - (marked[at]?.points ?? 0)) > ALIKE)
  const notes: Note[] = [...(unreadable ? ['unreadable' as const] : []), ...(isForged ? ['forged' as const] : [])]
  const of = lesson.steps.filter(asks).reduce((sum, { points }) => sum + points, 0)
  return { source, result, lesson, marked, notes, points, of, said }
}

interface Marks {
  readonly marked: readonly (Marked | null)[]
  /** Whether something in it is no response. */
  readonly unreadable: boolean
}

/** What was marked is not marked again when another file comes. */
const known = new Map<string, Promise<Marks>>()

function marksOnce(lesson: Lesson, result: Result, settings: Settings): Promise<Marks> {
  const of = JSON.stringify([lesson, result.seed, result.responses, settings])
  const marks = known.get(of) ?? marksOf(lesson, result, settings)
  known.set(of, marks)
  return marks
}

async function marksOf(lesson: Lesson, { seed, responses }: Result, settings: Settings): Promise<Marks> {
  const dealt = await askStage('lesson_deal', lesson, seed)
  const marked: (Marked | null)[] = []
  let unreadable = responses.length > lesson.steps.length
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
      // Not of the shape of a response.
      marked.push(null)
      unreadable = true
    }
  }
  return { marked, unreadable }
}
