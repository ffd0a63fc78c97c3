// Where a lesson comes from: the page itself, its address, or a file.

import type { LessonFlaw } from '../../generated/contract'
import { isRecord, isText, keep, load, loadList } from '../base/kept'
import { say } from '../base/words'
import { askStage } from '../engine/stage'
import { isLong } from '../base/limit'
import { isDeep } from '../base/shape'
import { writeLesson } from '../screen/link'
import { getState } from '../screen/store'
import { FILE, pack, unpack, writeLessonAddress, type LessonAddress } from './address'
import { openLesson, type LessonState } from './lesson-state'
import { readLesson } from './read-lesson'
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
    const text = lastFile()
    return text === null ? { why: say('lesson-file-gone'), text: '' } : readText(place, text)
  }
  // A name that somebody typed is no lesson that was packed.
  if (place.what.length < SHORTEST) return { why: say('lesson-unknown-link'), text: place.what }
  const unpacked = await unpack(place.what)
  if ('why' in unpacked) return { why: say(`lesson-link-${unpacked.why}`), text: place.what }
  return readText(place, unpacked.text)
}

/** The text of the file that was opened last; nothing where it is gone. */
export function lastFile(): string | null {
  return load(LAST_FILE, isText)
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
  const { lesson, flaws, text: known } = await readLesson(file)
  if (lesson === null || lesson.steps.length === 0) return { why: told(flaws), text: text() }
  await openLesson(place, { lesson, own: lesson.language, flaws, text: known, file })
  return null
}

function told(flaws: readonly LessonFlaw[]): string {
  return flaws.map(({ text }) => text).join(' ')
}

/** Lessons whose file was opened on this device: whoever has the file may be teaching it. */
const OWN = 'lesson-own'
const MOST_OWN = 40

export function isOwn({ lesson }: Pick<LessonState, 'lesson'>): boolean {
  return loadList(OWN, isText).includes(lesson.id)
}

function keepOwn(id: string): void {
  keep(OWN, [id, ...loadList(OWN, isText).filter(other => other !== id)].slice(0, MOST_OWN))
}

/** The address of the lesson in a file; what is no lesson is told once it is opened. */
export async function addressOf(file: File): Promise<string | Refused> {
  if (file.size > LARGEST) return { why: say('lesson-file-large'), text: '' }
  const bytes = new Uint8Array(await file.arrayBuffer())
  const { text } = await askStage('stage_decode', bytes, getState().settings)
  let json: unknown
  try {
    json = JSON.parse(text)
  } catch {
    return { why: say('lesson-no-json'), text }
  }
  if (isDeep(json)) return { why: say('lesson-deep'), text }
  if (isRecord(json) && isText(json['id'])) keepOwn(json['id'])
  // Without what only makes it read well.
  const packed = await pack(JSON.stringify(json))
  const hash = packed === null ? null : addressed(packed)
  if (hash !== null && !isLong(hash)) return hash
  keep(LAST_FILE, text)
  return addressed(FILE)
}

function addressed(what: string): string {
  return writeLesson(writeLessonAddress({ what, seed: null, step: null, view: '' }))
}
