// A show out of a text: what is whole of it is taken, and what is not is told.

import type { Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { getState } from '../../screen/store'

export interface Read {
  /** Nothing where it is no show, or one of a newer version. */
  readonly show: Show | null
  readonly flaws: readonly string[]
}

export async function readBytes(bytes: Uint8Array): Promise<Read & { readonly text: string }> {
  const { text, flaw } = await askStage('stage_decode', bytes, getState().settings)
  const read = await readText(text)
  return { ...read, text, flaws: [...(flaw === null ? [] : [flaw.text]), ...read.flaws] }
}

export async function readText(text: string): Promise<Read> {
  const whole = parsed(text)
  if (whole !== undefined) return readParsed(whole, [])
  const mended = upToLastRow(text)
  const part = mended === null ? undefined : parsed(mended)
  if (part === undefined) return { show: null, flaws: [say('stage-file-damaged')] }
  return readParsed(part, [say('stage-file-half')])
}

async function readParsed(file: unknown, before: readonly string[]): Promise<Read> {
  const { show, flaws } = await askStage('stage_read', file, getState().settings)
  return { show, flaws: [...before, ...flaws.map(flaw => flaw.text)] }
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
