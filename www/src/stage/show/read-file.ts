// A show out of a text: what is whole of it is taken, and what is not is told.

import type { Show } from '../../../generated/contract'
import { isRecord } from '../../base/shape'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { BLOCK } from '../../screen/saved-page'
import { getState } from '../../screen/store'

export interface Read {
  /** Nothing where it is no show, or one of a newer version. */
  readonly show: Show | null
  readonly flaws: readonly string[]
  /** Whether something was left out or changed, so that the text has more than the show. */
  readonly changed: boolean
}

export async function readBytes(bytes: Uint8Array): Promise<Read & { readonly text: string }> {
  const { text, flaw } = await askStage('stage_decode', bytes, getState().settings)
  const read = await readText(text)
  if (flaw === null) return { ...read, text }
  const unread = say('stage-file-encoding', { line: `${flaw.row ?? 1}` })
  return { ...read, text, flaws: [unread, ...read.flaws], changed: true }
}

/** Reads a text: the file of a show, or a page that was saved with one. */
export async function readText(text: string): Promise<Read> {
  const whole = fileIn(text)
  if (whole !== undefined) return readParsed(whole)
  // Nothing would be lost with such a page.
  if (isPage(text)) return { ...refused(say('stage-file-no-show')), changed: false }
  const mended = upToLastRow(text)
  const part = mended === null ? undefined : parsed(mended)
  if (part === undefined) return refused(say('stage-file-damaged'))
  const read = await readParsed(part)
  return { ...read, flaws: [say('stage-file-half'), ...read.flaws], changed: true }
}

/** What a text has in it, not made sense of yet; nothing where it is neither JSON nor a page with a show. */
export function fileIn(text: string): unknown {
  return isPage(text) ? showOfPage(text) : parsed(text)
}

function isPage(text: string): boolean {
  return /^\s*</.test(text)
}

function refused(why: string): Read {
  return { show: null, flaws: [why], changed: true }
}

async function readParsed(file: unknown): Promise<Read> {
  const version = isRecord(file) ? file['version'] : undefined
  // Whoever writes a file by hand or by a program is told what to write.
  if (version !== undefined && !isVersion(version))
    return refused(say('stage-file-version', { version: JSON.stringify(version).slice(0, 60) }))
  const { settings } = getState()
  const { show, flaws } = await askStage('stage_read', file, settings)
  // What is wrong with the show as it is now is no loss.
  const stays = show === null ? [] : (await askStage('stage_check', show, settings)).map(({ text }) => text)
  const changed = flaws.some(({ text }) => !stays.includes(text))
  return { show, flaws: flaws.map(flaw => flaw.text), changed }
}

function isVersion(version: unknown): boolean {
  return typeof version === 'number' && Number.isInteger(version) && version > 0
}

/** In a saved page, what it begins with; no sign of it looks like a tag. A parser would meddle with the rest. */
const BLOCKS = new RegExp(`<script[^>]*\\bid="${BLOCK}"[^>]*>([^<]*)<`, 'g')

/** The show that a page was saved with; nothing where it has none. */
function showOfPage(text: string): unknown {
  for (const [, block = ''] of text.matchAll(BLOCKS)) {
    const beginning = parsed(block)
    const show = isRecord(beginning) ? beginning['show'] : undefined
    const kept = isRecord(show) ? show['kept'] : undefined
    if (isRecord(kept)) return kept['show']
  }
  return undefined
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

/**
 * A text of JSON that ends too early, closed behind its last whole row. Rows stand two
 * deep: in a list of the show. Nothing where it does not end too early.
 */
function upToLastRow(text: string): string | null {
  const open: string[] = []
  let end: string | null = null
  for (let at = 0, quoted = false; at < text.length; at++) {
    const sign = text[at]
    if (quoted) {
      if (sign === '\\') at++
      else if (sign === '"') quoted = false
    } else if (sign === '"') quoted = true
    else if (sign === '{') open.push('}')
    else if (sign === '[') open.push(']')
    else if (sign === '}' || sign === ']') {
      if (open.pop() !== sign) return null
    } else if (sign === ',' && open.length <= 2) end = text.slice(0, at) + [...open].reverse().join('')
  }
  return open.length === 0 ? null : end
}
