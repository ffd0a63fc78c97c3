// The address of a screen: short, readable, with a version.
//
//   #1/<calculator>/<values>/<held>/<held>/<held>?in=…&want=<reading>:<text>&field=<field>
//
// A value set is `field=text&field=text` and names only fields that differ from
// their defaults, with the text as it was typed. `in` names the settings under
// which these texts were written, where they differ from those of DEFAULTS.

import type { Settings } from '../generated/contract'
import { DEFAULTS, readSettings, writeSettings } from './settings'

export const VERSION = '1'
export const MOST_HELD = 3

/** What was put into the fields that differ from their defaults, by field. */
export type Texts = Readonly<Record<string, string>>

/** A question asked backwards: the reading, its wanted value, the field to change. */
export interface Want {
  readonly reading: string
  readonly text: string
  readonly field: string
}

/** What the screen of a calculator shows. */
export interface Filling {
  readonly calculator: string
  readonly current: Texts
  readonly held: readonly Texts[]
  readonly want: Want | null
}

export type Place =
  | { readonly kind: 'list' }
  | { readonly kind: 'unread'; readonly raw: string }
  | {
      readonly kind: 'calculator'
      readonly filling: Filling
      /** The settings of the link; nothing where it depends on none. */
      readonly settings: Settings | null
      /** Pieces that could not be taken over, as they stood. */
      readonly spare: readonly string[]
    }

export function readPlace(hash: string): Place {
  const raw = hash.replace(/^#/, '')
  if (raw === '') return { kind: 'list' }
  const cut = raw.indexOf('?')
  const path = cut < 0 ? raw : raw.slice(0, cut)
  const [version, calculator = '', ...sets] = path.split('/')
  if (version !== VERSION) return { kind: 'unread', raw }
  if (calculator === '') return { kind: 'list' }

  const spare: string[] = []
  const [current = {}, ...held] = sets.map(set => readTexts(set, spare))
  for (const set of sets.slice(1 + MOST_HELD)) spare.push(set)

  const query = readPairs(cut < 0 ? '' : raw.slice(cut + 1), spare)
  const written = query.get('in')
  const wanted = query.get('want')
  const colon = wanted?.indexOf(':') ?? -1
  const want =
    wanted === undefined
      ? null
      : {
          reading: colon < 0 ? wanted : wanted.slice(0, colon),
          text: colon < 0 ? '' : wanted.slice(colon + 1),
          field: query.get('field') ?? '',
        }
  for (const [key, text] of query) {
    if (!['in', 'want', 'field'].includes(key)) spare.push(`${key}=${text}`)
  }
  const bare = sets.every(set => set === '') && written === undefined
  return {
    kind: 'calculator',
    filling: { calculator: unescaped(calculator), current, held: held.slice(0, MOST_HELD), want },
    settings: bare ? null : readSettings(written ?? '', spare),
    spare,
  }
}

export function writePlace(filling: Filling, settings: Settings = DEFAULTS): string {
  const sets = [filling.current, ...filling.held].map(writeTexts)
  while (sets.at(-1) === '') sets.pop()
  const query = []
  const written = writeSettings(settings)
  if (written !== '') query.push(`in=${written}`)
  if (filling.want !== null) {
    query.push(`want=${filling.want.reading}:${escaped(filling.want.text)}`)
    if (filling.want.field !== '') query.push(`field=${filling.want.field}`)
  }
  const path = [VERSION, encodeURIComponent(filling.calculator), ...sets].join('/')
  return `#${path}${query.length > 0 ? `?${query.join('&')}` : ''}`
}

function readTexts(set: string, spare: string[]): Texts {
  return Object.fromEntries(readPairs(set, spare))
}

function writeTexts(texts: Texts): string {
  return Object.entries(texts)
    .map(([id, text]) => `${encodeURIComponent(id)}=${escaped(text)}`)
    .join('&')
}

function readPairs(text: string, spare: string[]): Map<string, string> {
  const pairs = new Map<string, string>()
  for (const pair of text.split('&').filter(pair => pair !== '')) {
    const cut = pair.indexOf('=')
    if (cut <= 0) spare.push(pair)
    else pairs.set(decoded(pair.slice(0, cut)), unescaped(pair.slice(cut + 1)))
  }
  return pairs
}

// Spaces, minus signs and the ohm are what a browser would spell out in
// percents; each has a short form here, and the short form's own letters are
// spelled out instead, so that every text comes back as it was.
function escaped(text: string): string {
  return text.replace(/ohm|[^A-Za-z0-9.,:;+*@-]/gu, piece => {
    if (piece === ' ') return '_'
    if (piece === 'Ω') return 'ohm'
    if (piece === 'ohm') return '%6Fhm'
    return [...new TextEncoder().encode(piece)]
      .map(byte => `%${byte.toString(16).toUpperCase().padStart(2, '0')}`)
      .join('')
  })
}

function unescaped(text: string): string {
  return decoded(text.replaceAll('_', ' ').replaceAll('ohm', 'Ω'))
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text)
  } catch {
    return text
  }
}
