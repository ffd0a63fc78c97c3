// The lessons that results are marked by: those that ship, files that the trainer opens
// here, and only then the one that is open, which may be anybody's.

import type { Lesson } from '../../../generated/contract'
import { isRecord, keep, loadList } from '../../base/kept'
import { isDeep } from '../../base/shape'
import { say } from '../../base/words'
import { lessonState } from '../lesson-state'
import { readLesson } from '../read-lesson'
import { shipped } from '../shipped'
import { textOf } from '../text-hash'

const KEY = 'lesson-mark-by'
const LARGEST = 2 ** 21

/** Files that were opened to mark by, as they stand. */
function files(): Record<string, unknown>[] {
  return loadList(KEY, isFile)
}

function isFile(value: unknown): value is Record<string, unknown> {
  return isRecord(value) && !isDeep(value)
}

export interface KnownLesson {
  readonly lesson: Lesson
  /** By what its text is known. */
  readonly text: string
  /** Whether it is only the one that is open. */
  readonly isOpen: boolean
}

/** All of them; one that comes before another of its name is the one to mark by. */
export async function knownLessons(): Promise<KnownLesson[]> {
  const all = [...shipped.map(({ file }) => file), ...files()]
  const read = await Promise.all(all.map(readLesson))
  const known = read.flatMap(({ lesson, text }) => (lesson === null ? [] : [{ lesson, text, isOpen: false }]))
  const open = lessonState()
  return open === null ? known : [...known, { lesson: open.lesson, text: open.text, isOpen: true }]
}

export interface Added {
  /** Why it is no lesson; empty where it is one. */
  readonly why: string
  /** Whether the browser took it. */
  readonly kept: boolean
}

/** Adds a lesson to mark by. */
export async function addLesson(file: File): Promise<Added> {
  const refused = (why: string) => ({ why, kept: true })
  if (file.size > LARGEST) return refused(say('lesson-file-large'))
  let read: unknown
  try {
    read = JSON.parse(await file.text())
  } catch {
    return refused(say('lesson-no-json'))
  }
  const { lesson, flaws, text } = await readLesson(read)
  if (lesson === null || !isRecord(read)) return refused(flaws.map(({ text }) => text).join(' '))
  const isSame = (other: Record<string, unknown>) =>
    lesson.id === '' ? textOf(other) === text : other['id'] === read['id'] && other['revision'] === read['revision']
  return { why: '', kept: keep(KEY, [...files().filter(other => !isSame(other)), read]) }
}
