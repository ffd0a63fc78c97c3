// What can be done on a screen.

import { constants, type Settings } from '../../generated/contract'
import type { Way } from '../base/undo-way'
import * as address from './address'
import { fieldsOf, follow, numbers, refresh, schedule, withText } from './asking'
import { isFixed } from './embed'
import { fresh, linkOf, MOST_HELD, writeFind, type Filling, type Texts, type Tolerance, type Want } from './link'
import { description, filling, openedFilling } from './shown'
import { noteStep, stepBack } from './steps'
import { embedOf, getState, putState, setState } from './store'
import { tidy, translate } from './translate'

/** Whatever changes, what the author of a lesson fixed stays. */
function withFixed(texts: Texts, { current, embed }: Filling): Texts {
  if (embed === null || texts === current) return texts
  const fixed = new Set([...embed.locked, ...embed.hidden])
  const free = Object.entries(texts).filter(([id]) => !fixed.has(id))
  return Object.fromEntries([...free, ...Object.entries(current).filter(([id]) => fixed.has(id))])
}

type Step = 'follow' | 'new'

function fill(change: Partial<Filling>, step: Step): void {
  // What was put in a moment ago belongs to the screen that the way back leads to.
  if (step === 'new') address.flush()
  const { place, settings } = getState()
  if (place.kind !== 'calculator') return
  const next = { ...place.filling, ...change }
  next.current = withFixed(next.current, place.filling)
  // A lesson leaves the history of the page around it alone.
  const hash = next.embed === null && step === 'new' ? linkOf(next, settings) : null
  if (hash !== null) address.push(hash)
  // Drawn once, together with the answer in the next frame.
  putState({ place: { ...place, filling: next } })
  schedule()
  if (step === 'follow') follow()
}

/** The screen before the next change is a step to go back to; what is named the same is one step while it goes on. */
function begin(what: string | null = null): void {
  noteStep(what, () => {
    // What a slider gave a moment ago is part of it.
    if (numbers.size > 0) refresh()
    return filling()
  })
}

/** Undoes the last step, or does it again; answers whether there was one. */
export function step(way: Way): boolean {
  if (numbers.size > 0) refresh()
  const shown = filling()
  const to = shown === null ? null : stepBack(shown, way)
  if (to === null) return false
  const { current, held, want, tolerance } = to
  fill({ current, held, want, tolerance }, 'follow')
  refresh()
  return true
}

/** Searches on the start screen. The address follows, so that the way back leads to what was found. */
export function search(find: string): void {
  setState({ place: { kind: 'list', find } })
  address.replaceSoon(() => writeFind(find))
}

/** Goes to another screen as a link does. */
export function goTo(hash: string): void {
  address.flush()
  location.hash = hash
}

/** Puts a typed text into a field. */
export function putText(id: string, text: string): void {
  begin(id)
  const shown = filling()
  if (shown === null) return
  numbers.delete(id)
  fill({ current: withText(shown.current, id, text) }, 'follow')
}

/** Puts texts into several fields, as one step. */
export function putTexts(texts: Texts): void {
  begin()
  const shown = filling()
  if (shown !== null) fill({ current: { ...shown.current, ...texts } }, 'new')
}

/** Puts a number into a field, in its SI unit. */
export function putNumber(id: string, value: number): void {
  if (isFixed(embedOf(getState()), id)) return
  begin(id)
  numbers.set(id, value)
  schedule()
  follow()
}

/** Chooses an answer of a choice field. */
export function choose(id: string, option: string): void {
  begin()
  const shown = filling()
  if (shown === null) return
  const current = withText(shown.current, id, option)
  const chosen = (texts: Texts) => fieldsOf(texts)[id]?.text === option
  // A unit written behind a number decides on the unit; it gives way to the
  // choice made now.
  const bare = (description()?.fields ?? []).flatMap(({ id }) => {
    const text = isFixed(shown.embed, id) ? undefined : current[id]
    return text === undefined ? [] : [withText(current, id, text.replace(/([\d.,])[^\d.,]+$/, '$1'))]
  })
  const agreed = [current, ...bare].find(chosen) ?? current
  fill({ current: agreed }, agreed === current ? 'follow' : 'new')
}

type Pairs = readonly (readonly [string, string])[]

/**
 * Fills in a preset, whose texts are written under the settings of links. What
 * is held stays, unless the preset brings its own.
 */
export function startFrom(values: Pairs, held: readonly Pairs[]): void {
  begin()
  const shown = filling()
  if (shown === null) return
  const { settings } = getState()
  const written: Settings = { ...settings, decimal: 'point', length: 'metre' }
  const texts = (pairs: Pairs) =>
    translate(shown.calculator, { texts: Object.fromEntries(pairs), want: null }, written, settings).texts
  fill({ current: texts(values), held: held.length > 0 ? held.map(texts) : shown.held }, 'new')
}

/** Back to the defaults, or in a lesson to what its author began with. */
export function startAgain(): void {
  begin()
  const { current, held, tolerance } = (filling()?.embed ? openedFilling() : null) ?? fresh('')
  fill({ current, held, want: null, tolerance }, 'new')
}

/** Holds the present values, to compare others with them. */
export function hold(): void {
  begin()
  const shown = filling()
  if (shown !== null && shown.held.length < MOST_HELD) fill({ held: [...shown.held, { ...shown.current }] }, 'new')
}

export function drop(index: number): void {
  begin()
  const shown = filling()
  if (shown !== null) fill({ held: shown.held.filter((_, at) => at !== index) }, 'new')
}

/** Makes held values the present ones, and holds those instead. */
export function swap(index: number): void {
  begin()
  const shown = filling()
  const chosen = shown?.held[index]
  if (!shown || !chosen) return
  fill({ current: chosen, held: shown.held.map((texts, at) => (at === index ? shown.current : texts)) }, 'new')
}

/**
 * Asks backwards, or changes what is asked. The rest of the question is that of
 * the newest input, which may not be drawn yet.
 */
export function want(change: Partial<Want>): void {
  // That the question opens is no step: there is nothing in it yet.
  if (filling()?.want) begin('want')
  fill({ want: { reading: '', text: '', field: '', ...filling()?.want, ...change } }, 'follow')
}

/** Asks backwards no more. */
export function wantNothing(): void {
  fill({ want: null }, 'follow')
}

/** Turns tolerances on, or changes them. */
export function tolerate(change: Partial<Tolerance>): void {
  begin()
  fill({ tolerance: { percent: {}, draws: constants.draws.usual, ...filling()?.tolerance, ...change } }, 'follow')
}

/** Turns tolerances off. */
export function tolerateNothing(): void {
  begin()
  fill({ tolerance: null }, 'follow')
}

/** Takes over a value found backwards. */
export function takeOver(id: string, text: string): void {
  begin()
  const shown = filling()
  if (shown !== null) fill({ current: withText(shown.current, id, tidy(text)) }, 'new')
}

/** Takes out of the values what no field of the calculator has. */
export function forget(ids: readonly string[]): void {
  begin()
  const shown = filling()
  if (shown === null) return
  const gone = new Set(ids)
  fill({ current: Object.fromEntries(Object.entries(shown.current).filter(([id]) => !gone.has(id))) }, 'follow')
}
