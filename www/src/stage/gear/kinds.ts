// The kinds of gear, and what is asked of each.

import type { Description, FieldDescription, Gear, GearKind, Settings } from '../../../generated/contract'
import { format } from 'd3-format'
import { withSign } from '../../base/unit'
import { say } from '../../base/words'
import { isBare } from '../show/quantity-input'
import type { Echoes, Texts } from '../show/values'

export const KINDS: readonly GearKind[] = ['source', 'lead', 'di', 'isolator', 'pad', 'input']

interface Asked {
  /** Fields of the whole line; what shares a stop with one of them is asked too. */
  readonly stops: readonly string[]
  /** What else is asked. */
  readonly others: readonly string[]
  /** What the show says elsewhere. */
  readonly not: readonly string[]
  /** What matters most, in order. */
  readonly first: readonly string[]
}

const ASKED: Readonly<Record<GearKind, Asked>> = {
  source: {
    stops: ['source', 'volume'],
    others: ['bass', 'treble'],
    not: ['power'],
    first: [
      ...['source', 'microphone', 'amplifier', 'emf', 'microphone_emf', 'speaker_emf', 'crest', 'source_r'],
      ...['microphone_r', 'piezo_c', 'take_off', 'coil_l', 'coil_r'],
    ],
  },
  lead: { stops: ['lead_length'], others: [], not: [], first: ['lead_length', 'lead_c'] },
  di: {
    stops: ['box', 'ratio'],
    others: [],
    not: [],
    first: ['box', 'powered', 'box_r', 'box_clip', 'current', 'ratio', 'ground', 'largest'],
  },
  isolator: { stops: ['ratio'], others: [], not: [], first: ['ratio', 'r1', 'r2', 'magnetising', 'largest'] },
  pad: { stops: ['pad'], others: [], not: [], first: ['pad', 'pad_r'] },
  input: {
    stops: ['console_r', 'full_scale'],
    others: [],
    not: ['phantom', 'split', 'second_difference', 'second_earth_r'],
    first: ['console_r', 'console_most', 'console_noise', 'ein', 'console_en', 'console_in'],
  },
}

/** What a kind of gear is on a line, whatever its values say. */
const IS: Partial<Readonly<Record<GearKind, Texts>>> = {
  di: { box: 'active' },
  isolator: { box: 'passive', ground: 'lifted' },
}

/** The values of a piece of gear on a line. */
export function valuesOf({ kind, values }: Pick<Gear, 'kind' | 'values'>): Texts {
  return { ...IS[kind], ...values }
}

export interface KindFields {
  readonly first: readonly FieldDescription[]
  readonly more: readonly FieldDescription[]
}

/** What is asked of a kind of gear, what matters most first. */
export function fieldsOf(kind: GearKind, { fields }: Description): KindFields {
  const { stops, others, not, first } = ASKED[kind]
  const groups = new Set(fields.filter(({ id }) => stops.includes(id)).map(({ group }) => group))
  const asked = fields.filter(({ id, group }) => (groups.has(group) || others.includes(id)) && !not.includes(id))
  return {
    first: first.flatMap(wanted => asked.find(({ id }) => id === wanted) ?? []),
    more: asked.filter(({ id }) => !first.includes(id)),
  }
}

/** Whether a field plays a part, or has something in it all the same. */
export function isAsked({ id }: FieldDescription, values: Texts, echoes: Echoes | null): boolean {
  return Object.hasOwn(values, id) || echoes?.[id]?.active !== false
}

/** What a field is called on a piece of gear. */
export function nameOf({ id, name }: FieldDescription): string {
  return id === 'lead_length' ? say('stage-gear-length') : name
}

/** These say by themselves what they are. */
const PLAIN = [
  ...['source', 'microphone', 'amplifier', 'emf', 'microphone_emf', 'speaker_emf'],
  ...['lead_length', 'box', 'powered', 'ratio', 'pad'],
]

/** The first few values as one line, as the reader reads them. */
export function inShort({ first, more }: KindFields, texts: Texts, echoes: Echoes | null, settings: Settings): string {
  return [...first, ...more]
    .flatMap(field => {
      const text = texts[field.id] ?? ''
      if (text === '') return []
      const said = shown(field, text, echoes?.[field.id], settings)
      return [PLAIN.includes(field.id) ? said : `${field.name} ${said}`]
    })
    .slice(0, 3)
    .join(', ')
}

/** A value as it was typed; in the reader's own unit where it was typed without one, or has a length in it. */
function shown(
  { choice, number }: FieldDescription,
  text: string,
  echo: Echoes[string] | undefined,
  settings: Settings,
) {
  if (choice !== null) return choice.options.find(option => option.id === text)?.name ?? text
  if (number === null || typeof echo?.value !== 'number') return text
  const hasNoUnit = isBare(text) || /\d\s*[pnuµkMG]$/.test(text)
  return hasNoUnit || number.unit.endsWith('metre') ? inThreeFigures(echo.text, settings) : text
}

function inThreeFigures(text: string, settings: Settings): string {
  const [, digits = '', unit = ''] = /^([\d.,]+)(.*)$/.exec(text) ?? []
  return digits === '' ? text : withSign(format('.3~r')(Number(digits.replace(',', '.'))), settings) + unit
}
