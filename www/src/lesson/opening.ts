// Where a lesson comes from: the page itself, its address, or a file.

import type { LessonFlaw } from '../../generated/contract'
import { isText, keep, load } from '../base/kept'
import { say } from '../base/words'
import { askStage } from '../engine/stage'
import { isLong } from '../base/limit'
import { writeLesson } from '../screen/link'
import { getState } from '../screen/store'
import { FILE, pack, unpack, writeLessonAddress, type LessonAddress } from './address'
import { openLesson } from './lesson-state'
import { shipped } from './shipped'

/** A lesson that cannot be opened: why, and its text. */
export interface Refused {
  readonly why: string
  readonly text: string
}

/** Under this key lies the file that was opened last, where it is too long for an address. */
const LAST_FILE = 'lesson-file'
/** A file of more bytes is no lesson. */
const LARGEST = 2 ** 21

/** Opens the lesson of an address. */
export async function open(place: LessonAddress): Promise<Refused | null> {
  const own = shipped.find(({ id }) => id === place.what)
  if (own !== undefined) return read(place, own.file, () => JSON.stringify(own.file, null, 1))
  if (place.what === FILE) {
    const text = load(LAST_FILE, isText)
    return text === null ? { why: say('lesson-file-gone'), text: '' } : readText(place, text)
  }
  // A name that somebody typed is no lesson that was packed.
  if (place.what.length < SHORTEST) return { why: say('lesson-unknown-link'), text: place.what }
  const unpacked = await unpack(place.what)
  if ('why' in unpacked) return { why: say(`lesson-link-${unpacked.why}`), text: place.what }
  return readText(place, unpacked.text)
}

/** The least lesson takes more letters. */
const SHORTEST = 40

function readText(place: LessonAddress, text: string): Promise<Refused | null> | Refused {
  try {
    return read(place, JSON.parse(text), () => text)
  } catch {
    return { why: say('lesson-no-json'), text }
  }
}

async function read(place: LessonAddress, file: unknown, text: () => string): Promise<Refused | null> {
  const { lesson, flaws } = await askStage('lesson_read', file, getState().settings)
  if (lesson === null || lesson.steps.length === 0) return { why: told(flaws), text: text() }
  await openLesson(place, { lesson, flaws })
  return null
}

function told(flaws: readonly LessonFlaw[]): string {
  return flaws.map(({ text }) => text).join(' ')
}

/** The address of the lesson in a file; what is no lesson is told once it is opened. */
export async function addressOf(file: File): Promise<string | Refused> {
  if (file.size > LARGEST) return { why: say('lesson-file-large'), text: '' }
  const bytes = new Uint8Array(await file.arrayBuffer())
  const { text } = await askStage('stage_decode', bytes, getState().settings)
  try {
    // Without what only makes it read well.
    const packed = await pack(JSON.stringify(JSON.parse(text)))
    const hash = packed === null ? null : addressed(packed)
    if (hash !== null && !isLong(hash)) return hash
  } catch {
    return { why: say('lesson-no-json'), text }
  }
  keep(LAST_FILE, text)
  return addressed(FILE)
}

function addressed(what: string): string {
  return writeLesson(writeLessonAddress({ what, seed: null, step: null, view: '' }))
}
