// The lessons that results are marked by: those that ship, and files that the trainer opens here.

import type { Lesson } from '../../../generated/contract'
import { isRecord, keep, loadList } from '../../base/kept'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { getState } from '../../screen/store'
import { lessonState } from '../lesson-state'
import { shipped } from '../shipped'

const KEY = 'lesson-mark-by'
const LARGEST = 2 ** 21

/** Files that were opened to mark by, as they stand. */
function files(): Record<string, unknown>[] {
  return loadList(KEY, isRecord)
}

export async function knownLessons(): Promise<Lesson[]> {
  const { settings } = getState()
  const all = [...shipped.map(({ file }) => file), ...files()]
  const read = await Promise.all(all.map(file => askStage('lesson_read', file, settings)))
  const open = lessonState()?.lesson
  return [...(open === undefined ? [] : [open]), ...read.flatMap(({ lesson }) => lesson ?? [])]
}

/** Adds a lesson to mark by; why it is none is answered. */
export async function addLesson(file: File): Promise<string> {
  if (file.size > LARGEST) return say('lesson-file-large')
  let read: unknown
  try {
    read = JSON.parse(await file.text())
  } catch {
    return say('lesson-no-json')
  }
  const { lesson, flaws } = await askStage('lesson_read', read, getState().settings)
  if (lesson === null || !isRecord(read)) return flaws.map(({ text }) => text).join(' ')
  const { id, revision } = read
  keep(KEY, [...files().filter(other => other['id'] !== id || other['revision'] !== revision), read])
  return ''
}
