// The line with the fault: a whole line, of which a few things are asked here.

import type { Description, Echo, FieldDescription, Settings } from '../../generated/contract'
import { answer } from '../engine/engine'
import { descriptionOf } from '../screen/descriptions'
import { readPlace, type Texts } from '../screen/link'
import { rigs } from '../screen/rigs'
import { tidy, translate } from '../screen/translate'
import { say } from '../base/words'
import { WHOLE_LINE } from './address'

/** What faults depend on most; the rest comes from a link, or stays as usual. */
const ASKED = [
  'source',
  'microphone',
  'power',
  'lead_length',
  'box',
  'powered',
  'ground',
  'thru',
  'run',
  'run_length',
  'phantom',
  'split',
]
/** And what of these tells a line from others, in short. */
const TOLD = ['source', 'power', 'lead_length', 'box', 'thru', 'run_length']
/** As it is mostly: not worth a word. */
const NOT_TOLD = ['none', 'floating']

export interface Line {
  readonly description: Description
  readonly fields: Readonly<Record<string, Echo>>
}

/** How a line is understood; nothing where there is no such calculator. */
export function lineOf(texts: Texts, settings: Settings): Line | null {
  const description = descriptionOf(WHOLE_LINE, settings)
  return description === undefined ? null : { description, fields: fieldsOf(texts, settings) }
}

function fieldsOf(texts: Texts, settings: Settings): Line['fields'] {
  const nothingElse = { working: false, brief: true, backwards: null, cures: false, tolerances: null }
  return answer({ calculator: WHOLE_LINE, values: { ...texts }, settings, ...nothingElse }).fields
}

/** What is asked here of a line: the usual few, what a link set, and what is wrong. */
export function askedOf({ description, fields }: Line, texts: Texts): FieldDescription[] {
  const isAsked = (id: string) => ASKED.includes(id) || id in texts || Boolean(fields[id]?.problem)
  const inOrder = [...ASKED, ...description.fields.map(({ id }) => id).filter(id => !ASKED.includes(id))]
  return inOrder.flatMap(id => {
    const field = description.fields.find(field => field.id === id)
    return field !== undefined && isAsked(id) && fields[id]?.active !== false ? [field] : []
  })
}

/** The line in a few words. */
export function summaryOf({ description, fields }: Line): string {
  const pieces = TOLD.flatMap(id => {
    const field = description.fields.find(field => field.id === id)
    const echo = fields[id]
    if (field === undefined || echo === undefined || !echo.active || NOT_TOLD.includes(echo.text)) return []
    const option = field.choice?.options.find(({ id }) => id === echo.text)
    return [option?.name ?? say(id === 'run_length' ? 'fault-line-run' : 'fault-line-lead', { length: echo.text })]
  })
  return pieces.join(', ')
}

/** What a step looks at, of which the line says how it should be. */
const PLANNED: ReadonlyMap<string, string> = new Map([
  ['pads', 'pad'],
  ['lift-switch', 'ground'],
])

/** How it should be, as this line has it; nothing where a step looks at nothing of that kind. */
export function plannedOf(step: string, texts: Texts, settings: Settings): string | null {
  const id = PLANNED.get(step)
  const line = id === undefined ? null : lineOf(texts, settings)
  const field = line?.description.fields.find(field => field.id === id)
  const echo = line?.fields[id ?? '']
  const option = field?.choice?.options.find(({ id }) => id === echo?.text)
  if (field === undefined || echo?.active !== true) return null
  return say('fault-planned', { field: field.name, value: option?.name ?? echo.text })
}

/** The line with another text in a field; what the field has by itself need not be kept. */
export function withText(texts: Texts, id: string, text: string, settings: Settings): Texts {
  const { [id]: _, ...others } = texts
  return text === tidy(fieldsOf(others, settings)[id]?.text ?? '') ? others : { ...texts, [id]: text }
}

/** A line to start from. */
export interface Beginning {
  readonly id: string
  readonly name: string
  readonly texts: Texts
}

/** The usual lines, then those that the reader named. */
export function beginnings(settings: Settings): Beginning[] {
  const written: Settings = { ...settings, decimal: 'point', length: 'metre' }
  const rewritten = (texts: Texts, from: Settings) => translate(WHOLE_LINE, { texts, want: null }, from, settings).texts
  const usual = (descriptionOf(WHOLE_LINE, settings)?.presets ?? []).map(({ id, name, values }) => {
    const key = `fault-line-${id}`
    const short = say(key)
    return { id, name: short === key ? name : short, texts: rewritten(Object.fromEntries(values), written) }
  })
  const own = rigs().flatMap(({ name, calculator, hash }) => {
    const place = calculator === WHOLE_LINE ? readPlace(hash) : null
    if (place?.kind !== 'calculator') return []
    return [{ id: `rig ${name}`, name, texts: rewritten(place.filling.current, place.settings ?? settings) }]
  })
  return [...usual, ...own]
}
