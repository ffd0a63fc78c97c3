// A row as values of the whole line: what it fills in, what is to be otherwise, and how
// that is put into the row.

import type { Gear, InputLine, Settings, Show } from '../../../generated/contract'
import { answer, engine } from '../../engine/engine'
import { DEFAULTS } from '../../screen/settings'
import type { Texts } from '../../screen/link'
import { isNear } from '../../screen/translate'
import { say } from '../../base/words'
import { edit } from '../show/project'
import { columnOf, titleOf } from './columns'
import { lineOf } from './deeds'

export const WHOLE_LINE = 'whole-line'

/** Under these the texts of a show mean what they say. */
export function showSettings(show: Show): Settings {
  return { ...DEFAULTS, mains: show.mains }
}

function fieldsOf(texts: Texts, settings: Settings) {
  const nothingElse = { working: false, brief: true, backwards: null, cures: false, tolerances: null }
  return answer({ calculator: WHOLE_LINE, values: { ...texts }, settings, ...nothingElse }).fields
}

/** The texts of `to` whose values are not those of `from`, of the fields that count there. */
export function differing(from: Texts, to: Texts, settings: Settings): Texts {
  const [before, after] = [fieldsOf(from, settings), fieldsOf(to, settings)]
  const isOther = (id: string) => {
    const [was, is] = [before[id], after[id]]
    if (is === undefined || !is.active) return false
    if (is.value === null || was === undefined || was.value === null) return was?.text !== is.text
    return !isNear(is.value, was.value)
  }
  return Object.fromEntries(
    Object.keys(after)
      .filter(isOther)
      .map(id => [id, to[id] ?? after[id]?.text.replaceAll('\u00a0', ' ').replaceAll('−', '-') ?? '']),
  )
}

/** What a lead is called where it is the run. */
const AS_RUN: Readonly<Record<string, string>> = {
  lead_length: 'run_length',
  lead_c: 'run_c',
  lead_r: 'run_r',
  lead_l: 'run_l',
}

const PARTS = ['di', 'pad', 'lead', 'run'] as const
type PartOfLine = (typeof PARTS)[number]

/** What gear fills in on its place of the line. */
function filledBy(gear: Gear, place: PartOfLine): Texts {
  const values = Object.entries(gear.values).map(([id, text]) => [place === 'run' ? (AS_RUN[id] ?? id) : id, text])
  const own = Object.fromEntries(values) as Texts
  if (place !== 'di') return own
  return gear.kind === 'isolator' ? { box: 'passive', ground: 'lifted', ...own } : { box: 'active', ...own }
}

/** Gear of the drawer on one place of the line that makes just this change. */
function gearFor(show: Show, changed: Texts): { readonly place: PartOfLine; readonly gear: string } | null {
  if (changed['box'] === 'none') return { place: 'di', gear: '' }
  const settings = showSettings(show)
  for (const place of PARTS) {
    const column = columnOf(place)
    const kinds = column?.kind.is === 'gear' ? column.kind.kinds : []
    const fits = (gear: Gear) => {
      const filled = filledBy(gear, place)
      const touched = Object.keys(changed).filter(id => id in filled || (place === 'di' && id === 'ground'))
      return (
        kinds.includes(gear.kind) &&
        touched.length === Object.keys(changed).length &&
        Object.keys(differing(filled, { ...filled, ...changed }, settings)).length === 0
      )
    }
    const gear = show.gear.find(fits)
    if (gear !== undefined) return { place, gear: gear.id }
  }
  return null
}

/** How a row gets other values: gear of the drawer where there is such, else values of its own. */
export interface Change {
  readonly place: PartOfLine | null
  readonly gear: string
  readonly texts: Texts
  readonly phantom: InputLine['phantom'] | null
}

export function changeFor(show: Show, changed: Texts): Change {
  const { phantom, ...rest } = changed
  const asked = phantom === 'off' || phantom === 'p48' || phantom === 'p24' || phantom === 'p12' ? phantom : null
  const found = Object.keys(rest).length === 0 ? null : gearFor(show, rest)
  return { place: found?.place ?? null, gear: found?.gear ?? '', texts: rest, phantom: asked }
}

/** Makes a change to a row, as one step to undo. */
export function makeChange(show: Show, id: string, { place, gear, texts, phantom }: Change): void {
  const line = lineOf(show, id)
  if (line === undefined) return
  edit(say('stage-list-did-values', { row: titleOf(line) }), draft => {
    const one = lineOf(draft, id)
    if (one === undefined) return
    if (phantom !== null) {
      one.phantom = phantom
      delete one.values['phantom']
    }
    if (place === null) Object.assign(one.values, texts)
    else {
      one[place] = gear
      // Its own values would stand over those of gear.
      for (const field of Object.keys(texts)) delete one.values[field]
    }
  })
}

/** The texts that a row stands for, under the settings of its show. */
export function textsOf(show: Show, id: string): Texts {
  return engine().stage_texts(show, id)
}
