// A row as values of the whole line: what it fills in, what is to be otherwise, and how
// that is put into the row.

import type { Gear, InputLine, Settings, Show } from '../../../generated/contract'
import { answer, engine } from '../../engine/engine'
import { DEFAULTS } from '../../screen/settings'
import type { Texts } from '../../screen/link'
import { isNear, tidy } from '../../screen/translate'
import { say } from '../../base/words'
import { edit, getProject } from '../show/project'
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
      .map(id => [id, tidy(to[id] ?? after[id]?.text ?? '')]),
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

interface Choice {
  readonly place: PartOfLine
  readonly gear: string
  /** The fields that it sets as they shall be. */
  readonly sets: readonly string[]
}

/** Gear of the drawer, on one place of the line, that has the values that shall be: most of them, and not all in use. */
function gearFor(show: Show, changed: Texts): Choice | null {
  if (changed['box'] === 'none') return { place: 'di', gear: '', sets: ['box'] }
  const settings = showSettings(show)
  const choices = PARTS.flatMap(place => {
    const column = columnOf(place)
    const kinds = column?.kind.is === 'gear' ? column.kind.kinds : []
    return show.gear
      .filter(({ kind }) => kinds.includes(kind))
      .map(gear => ({ place, gear: gear.id, filled: filledBy(gear, place) }))
  })
  const fitting = choices.flatMap(({ place, gear, filled }) => {
    const sets = Object.keys(changed).filter(id => id in filled)
    const wanted = Object.fromEntries(sets.map(id => [id, changed[id] ?? '']))
    const fits = sets.length > 0 && Object.keys(differing(filled, { ...filled, ...wanted }, settings)).length === 0
    return fits ? [{ place, gear, sets }] : []
  })
  const rank = ({ gear, sets }: Choice) => 2 * sets.length + (isSpare(gear) ? 1 : 0)
  return fitting.sort((a, b) => rank(b) - rank(a))[0] ?? null
}

/** Whether one of it is left in the drawer. */
function isSpare(gear: string): boolean {
  const { show, totals } = getProject()
  const have = show.gear.find(({ id }) => id === gear)?.count ?? Infinity
  return (totals?.parts.find(({ id }) => id === gear)?.used ?? 0) < have
}

/** How a row gets other values: gear of the drawer where there is such, else values of its own. */
export interface Change {
  readonly choice: Choice | null
  readonly texts: Texts
  readonly phantom: InputLine['phantom'] | null
}

export function changeFor(show: Show, changed: Texts): Change {
  const { phantom, ...texts } = changed
  const asked = phantom === 'off' || phantom === 'p48' || phantom === 'p24' || phantom === 'p12' ? phantom : null
  return { choice: Object.keys(texts).length === 0 ? null : gearFor(show, texts), texts, phantom: asked }
}

/** Makes a change to a row, as one step to undo. */
export function makeChange(show: Show, id: string, { choice, texts, phantom }: Change): void {
  const line = lineOf(show, id)
  if (line === undefined) return
  edit(say('stage-list-did-values', { row: titleOf(line) }), draft => {
    const one = lineOf(draft, id)
    if (one === undefined) return
    if (phantom !== null) {
      one.phantom = phantom
      delete one.values['phantom']
    }
    if (choice !== null) one[choice.place] = choice.gear
    for (const [field, text] of Object.entries(texts)) {
      // Its own values would stand over those of gear.
      if (choice?.sets.includes(field) === true) delete one.values[field]
      else one.values[field] = text
    }
  })
}

/** The texts that a row stands for, under the settings of its show. */
export function textsOf(show: Show, id: string): Texts {
  return engine().stage_texts(show, id)
}
