// What the lessons have of their address, behind `#1/lesson`:
//
//   /<id of a lesson that ships, or the lesson itself>?seed=<number>&step=<number>&view=<view>
//   /<id>?result=<result>, or /collect: what learners handed in
//
// A lesson itself is its JSON, deflated without a header, in Base64 for addresses. Steps
// count from 1; the one behind the last is the result. `view` says how else than to a
// learner it is shown. A result is packed as a lesson is.

import { split } from '../screen/link'

export interface LessonAddress {
  /** The lesson: by its identifier, or packed; empty for the list of lessons. */
  readonly what: string
  /** What it is dealt by; nothing where that is left open. */
  readonly seed: number | null
  /** The step, from 1 on; nothing where that is left open. */
  readonly step: number | null
  /** Empty for the learner. */
  readonly view: string
  /** What a learner hands in, packed; empty where nothing is. */
  readonly result?: string
  /** What it says of the seed where that is none; empty where there is nothing to tell. */
  readonly odd?: string
}

/** In place of a lesson: the file that was opened last, which is too long for an address. */
export const FILE = 'file'
/** In place of a lesson: what learners handed in. */
export const COLLECT = 'collect'
/** A lesson in an address has at most so many bytes once it is unpacked. */
export const LONGEST_UNPACKED = 65_536

const MOST_SEED = 2 ** 32 - 1
/** So much is told of what cannot be read. */
const LONGEST_ODD = 40

export function readLessonAddress(rest: string): LessonAddress {
  const [path, query] = split(rest, '?')
  const said = new Map(query.split('&').map(piece => split(piece, '=')))
  const seed = number(said.get('seed'), MOST_SEED)
  return {
    what: path.replace(/^\//, ''),
    seed,
    odd: seed === null ? (said.get('seed') ?? '').slice(0, LONGEST_ODD) : '',
    step: number(said.get('step'), MOST_SEED),
    view: said.get('view') ?? '',
    result: said.get('result') ?? '',
  }
}

export function writeLessonAddress({ what, seed, step, view, result = '' }: LessonAddress): string {
  if (what === '') return ''
  const query = [
    ...(seed === null ? [] : [`seed=${seed}`]),
    ...(step === null ? [] : [`step=${step}`]),
    ...(view === '' ? [] : [`view=${view}`]),
    ...(result === '' ? [] : [`result=${result}`]),
  ]
  return `/${what}${query.length === 0 ? '' : `?${query.join('&')}`}`
}

function number(text: string | undefined, most: number): number | null {
  return text !== undefined && /^\d{1,10}$/.test(text) && Number(text) <= most ? Number(text) : null
}

/** The text of a lesson as an address carries it; nothing where it is too long for that. */
export async function pack(text: string): Promise<string | null> {
  const bytes = new TextEncoder().encode(text)
  if (bytes.length > LONGEST_UNPACKED) return null
  const packed = await through(bytes, new CompressionStream('deflate-raw'), Infinity)
  if (packed === null) return null
  const letters = Array.from(packed, byte => String.fromCharCode(byte)).join('')
  return btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '')
}

/** What an address carries, or why it cannot be read. */
export async function unpack(data: string): Promise<{ readonly text: string } | { readonly why: 'damaged' | 'bomb' }> {
  try {
    const letters = atob(data.replaceAll('-', '+').replaceAll('_', '/'))
    const bytes = Uint8Array.from(letters, letter => letter.charCodeAt(0))
    const whole = await through(bytes, new DecompressionStream('deflate-raw'), LONGEST_UNPACKED)
    if (whole === null) return { why: 'bomb' }
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(whole) }
  } catch {
    return { why: 'damaged' }
  }
}

/** What a stream makes of these bytes, read piece by piece; nothing where it is more than `most`. */
async function through(
  bytes: Uint8Array<ArrayBuffer>,
  stream: CompressionStream | DecompressionStream,
  most: number,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const reader = new Blob([bytes]).stream().pipeThrough(stream).getReader()
  const pieces: Uint8Array<ArrayBuffer>[] = []
  let length = 0
  for (let read = await reader.read(); !read.done; read = await reader.read()) {
    length += read.value.length
    if (length > most) {
      // What else it would unpack is not waited for.
      void reader.cancel().catch(() => undefined)
      return null
    }
    pieces.push(read.value)
  }
  return new Uint8Array(await new Blob(pieces).arrayBuffer())
}
