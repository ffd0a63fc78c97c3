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
  const [path, query] = split(raw, '?')
  const [version, calculator = '', ...sets] = path.split('/')
  if (version !== VERSION) return { kind: 'unread', raw }
  if (calculator === '') return { kind: 'list' }

  const spare: string[] = []
  const [current = {}, ...held] = sets.map(set => readTexts(set, spare))
  for (const set of sets.slice(1 + MOST_HELD)) spare.push(set)

  let written: string | undefined
  let wanted: Omit<Want, 'field'> | undefined
  let field = ''
  for (const piece of query.split('&')) {
    const [key, value] = split(piece, '=')
    if (key === 'in') written = value
    else if (key === 'want') {
      const [reading, text] = split(value, ':')
      wanted = { reading: decoded(reading), text: unescaped(text) }
    } else if (key === 'field') field = decoded(value)
    else if (piece !== '') spare.push(piece)
  }
  const bare = sets.every(set => set === '') && written === undefined
  return {
    kind: 'calculator',
    filling: {
      calculator: decoded(calculator),
      current,
      held: held.slice(0, MOST_HELD),
      want: wanted === undefined ? null : { ...wanted, field },
    },
    settings: bare ? null : readSettings(written ?? '', spare),
    spare,
  }
}

export function writePlace(filling: Filling, settings: Settings = DEFAULTS): string {
  const sets = [filling.current, ...filling.held].map(writeTexts)
  // A held set that says nothing holds the defaults; a lone one is left out.
  if (sets.length === 1 && sets[0] === '') sets.pop()
  const query = []
  const written = writeSettings(settings)
  if (written !== '') query.push(`in=${written}`)
  if (filling.want !== null) {
    query.push(`want=${encodeURIComponent(filling.want.reading)}:${escaped(filling.want.text)}`)
    if (filling.want.field !== '') query.push(`field=${encodeURIComponent(filling.want.field)}`)
  }
  const path = [VERSION, encodeURIComponent(filling.calculator), ...sets].join('/')
  return `#${path}${query.length > 0 ? `?${query.join('&')}` : ''}`
}

function readTexts(set: string, spare: string[]): Texts {
  const texts = new Map<string, string>()
  for (const piece of set.split('&').filter(piece => piece !== '')) {
    const [id, text] = split(piece, '=')
    if (id === '' || !piece.includes('=')) spare.push(piece)
    else texts.set(decoded(id), unescaped(text))
  }
  return Object.fromEntries(texts)
}

function writeTexts(texts: Texts): string {
  return Object.entries(texts)
    .map(([id, text]) => `${encodeURIComponent(id)}=${escaped(text)}`)
    .join('&')
}

/** What stands before and after the first `mark`. */
function split(text: string, mark: string): [string, string] {
  const at = text.indexOf(mark)
  return at < 0 ? [text, ''] : [text.slice(0, at), text.slice(at + 1)]
}

// Spaces and the ohm would be spelled out in percents; both have a short form
// here, and the short form's own letters are
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
