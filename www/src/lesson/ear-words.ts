// What an answer by ear, or by eye in its place, is in words.

import type { EarSeen, LessonKey, LessonResponse } from '../../generated/contract'
import { say } from '../base/words'

export const SEEN: readonly EarSeen[] = ['first', 'second', 'alike']

/** What was answered: what X was said to be, trial by trial, or what was seen. */
export function earText({ heard, seen }: LessonResponse): string {
  if (heard.length > 0) return heard.map(one => say(`lesson-ear-letter-${one}`)).join(' ')
  return seen === null ? '' : say(`lesson-ear-seen-${seen}`)
}

/** What would have been right, in the way in which it was answered. */
export function earKey({ heard }: LessonResponse, { text, seen }: LessonKey): string {
  if (heard.length > 0 || seen === null) return text
  return say(`lesson-ear-seen-${seen}`)
}
