// Lessons that come from elsewhere: files, saved pages, and addresses.

import { isRecord } from '../../base/shape'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { readPlace } from '../../screen/link'
import { BLOCK } from '../../screen/saved-page'
import { getState } from '../../screen/store'
import { FILE, readLessonAddress, unpack } from '../address'
import { lastFile, type Refused } from '../opening'
import { readLesson } from '../read-lesson'
import { shipped } from '../shipped'
import { draftOf, takeIn } from './draft'

/** A file of more bytes is no lesson; a page that was saved with one is larger. */
const LARGEST = 2 ** 25

/** Takes in the lesson of a file; answers what could not be taken over, and the text that it stood in. */
export async function bringFile(file: File): Promise<Refused | null> {
  if (file.size > LARGEST) return { why: say('lesson-file-large'), text: '' }
  const bytes = new Uint8Array(await file.arrayBuffer())
  const { text } = await askStage('stage_decode', bytes, getState().settings)
  return /<html|<!doctype/i.test(text.slice(0, 2000)) ? bringPage(text) : bringText(text)
}

/** The lesson that a saved page begins with. */
async function bringPage(text: string): Promise<Refused | null> {
  // Read as a document it would be held against the policy of this page.
  const [, block = ''] = new RegExp(`<script id="${BLOCK}"[^>]*>([^<]*)<`).exec(text) ?? []
  const refused = { why: say('lesson-edit-page-none'), text: '' }
  try {
    const said: unknown = JSON.parse(block)
    const hash = isRecord(said) ? said['hash'] : null
    const place = readPlace(typeof hash === 'string' ? hash : '')
    return place.kind === 'lesson' ? await bringAddress(readLessonAddress(place.rest).what) : refused
  } catch {
    return refused
  }
}

/** Takes in the lesson of an address. */
export async function bringAddress(what: string): Promise<Refused | null> {
  const own = shipped.find(({ id }) => id === what)
  if (own !== undefined) return bringRead(own.file, '')
  // The file that is open, which is too long for an address.
  if (what === FILE) {
    const text = lastFile()
    return text === null ? { why: say('lesson-file-gone'), text: '' } : bringText(text)
  }
  const unpacked = await unpack(what)
  return 'why' in unpacked ? { why: say(`lesson-link-${unpacked.why}`), text: what } : bringText(unpacked.text)
}

async function bringText(text: string): Promise<Refused | null> {
  let file: unknown
  try {
    file = JSON.parse(text)
  } catch {
    return { why: say('lesson-no-json'), text }
  }
  return bringRead(file, text)
}

async function bringRead(file: unknown, text: string): Promise<Refused | null> {
  const { lesson, flaws } = await readLesson(file)
  const why = flaws.map(({ text }) => text).join(' ')
  if (lesson === null) return { why, text }
  takeIn(draftOf(lesson))
  // What is only unfinished is told beside its step; what is not there any more, here.
  const again = await readLesson(draftOf(lesson))
  const still = again.flaws.map(({ text }) => text)
  const lost = flaws.filter(({ text }) => !still.includes(text))
  return lost.length === 0
    ? null
    : { why: say('lesson-edit-lost', { why: lost.map(({ text }) => text).join(' ') }), text }
}
