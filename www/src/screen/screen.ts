// What can be done on the screen of a calculator, and how its answer follows.

import type { Backwards, Description, Entry, Question, Settings, Spread } from '../../generated/contract'
import * as address from './address'
import { noteVisit, noteVisitSoon } from './at-hand'
import { shownDescription } from './descriptions'
import { answer, answerLong, dropLong, pageWords } from '../engine/engine'
import { isFixed, type Embed } from './embed'
import {
  DRAWS,
  fresh,
  linkOf,
  MOST_HELD,
  START,
  readPlace,
  writeFind,
  type Filling,
  type Place,
  type Texts,
  type Tolerance,
  type Want,
} from './link'
import { isLong } from '../base/limit'
import { showTheme, type Theme } from './theme'
import { keepSame } from '../base/structural-sharing'
import { beginning, noteBeginning, type Beginning } from './saved-page'
import { DEFAULTS, keepPreferences, loadPreferences, whenPreferencesChange } from './settings'
import { embedOf, getState, putState, setState, type Good, type Held, type State } from './store'
import { tidy, translate } from './translate'
import { setWords } from '../base/words'

/** What the address that was opened filled in. */
let opened: Filling | null = null
/** Numbers that sliders gave since the last answer; they become texts with it. */
const numbers = new Map<string, number>()
let frame = 0
let thinking: ReturnType<typeof setTimeout> | undefined
let drawing: ReturnType<typeof setTimeout> | undefined
/** What the band on the screen, or the one that is being drawn, was drawn of. */
let drawn: { current: Texts; tolerance: Tolerance; settings: Settings } | null = null

/** The pause in typing after which a long question is asked. */
const PAUSE = 150

export function start(): void {
  const { settings, theme } = loadPreferences()
  // A saved page has one of its own, which was not there yet before the first frame.
  showTheme(theme)
  setWords(pageWords(settings))
  setState({
    settings,
    theme,
    place: START,
    blank: {},
    answer: null,
    good: null,
    held: [],
    working: false,
    backwards: null,
    asking: false,
    spread: null,
    spreading: false,
    full: false,
  })
  const hash = startHash()
  if (beginning()['working'] === true) setState({ working: true })
  open(readPlace(hash))
  note({ hash })
  address.listen(hash => open(readPlace(hash)))
  followPreferences()
}

/** What is chosen in another tab counts here too, but for a lesson, which its author wrote. */
function followPreferences(): void {
  whenPreferencesChange(({ settings, theme }) => {
    if (filling()?.embed) return
    const { settings: own, theme: shown } = getState()
    if (theme !== shown) setTheme(theme)
    if (JSON.stringify(settings) !== JSON.stringify(own)) setSettings(settings)
  })
}

/** The address wins over what a saved page begins with, even where it says no more than `#`. */
function startHash(): string {
  const { hash } = beginning()
  if (location.href.includes('#') || typeof hash !== 'string' || hash === '') return location.hash
  if (!isLong(hash)) address.begin(hash)
  return hash
}

/** Keeps what Save As takes along at what is on the screen. */
function note(more: Partial<Beginning> = {}): void {
  const { settings, theme, working } = getState()
  noteBeginning({ settings, theme, working, ...more })
}

/**
 * The address of the screen as it is, ahead of the address bar, which in some
 * frames does not follow; that which it had before where it is too much for one.
 */
export function currentHash(): string {
  const shown = filling()
  return (shown === null ? null : linkOf(shown, getState().settings)) ?? address.last()
}

/** The filling on the screen, if it is that of a calculator. */
export function filling(): Filling | null {
  const { place } = getState()
  return place.kind === 'calculator' ? place.filling : null
}

export function description(): Description | undefined {
  return shownDescription(getState())
}

function open(place: Place): void {
  numbers.clear()
  if (place.kind === 'calculator') {
    if (place.filling.embed !== null) beginEmbed(place.filling.embed, place.settings)
    else endEmbed()
  }
  opened = place.kind === 'calculator' ? place.filling : null
  const { settings } = getState()
  const next =
    place.kind === 'calculator' && place.settings !== null ? translated(place, place.settings, settings) : place
  stopDrawing()
  noteVisit()
  setState({ place: next, blank: {}, answer: null, good: null, held: [], backwards: null, asking: false, full: false })
  showBlank()
  refresh()
}

/** A lesson is shown as its author wrote it, whatever the reader has chosen elsewhere. */
function beginEmbed({ working, theme }: Embed, settings: Settings | null): void {
  const to = settings ?? DEFAULTS
  setWords(pageWords(to))
  showTheme(theme)
  document.documentElement.dataset['lesson'] = ''
  setState({ settings: to, working })
}

function endEmbed(): void {
  const { dataset } = document.documentElement
  if (dataset['lesson'] === undefined) return
  delete dataset['lesson']
  showTheme(getState().theme)
}

function translated(place: Place & { kind: 'calculator' }, from: Settings, to: Settings): Place {
  return { ...place, filling: translateFilling(place.filling, from, to) }
}

function translateFilling(filling: Filling, from: Settings, to: Settings): Filling {
  const rewrite = (texts: Texts, want: Want | null) => translate(filling.calculator, { texts, want }, from, to)
  const { texts: current, want } = rewrite(filling.current, filling.want)
  return { ...filling, current, want, held: filling.held.map(texts => rewrite(texts, null).texts) }
}

function question(texts: Readonly<Record<string, Entry>>): Question {
  const { settings, working } = getState()
  const calculator = filling()?.calculator ?? ''
  return { calculator, values: { ...texts }, settings, working, backwards: null, tolerances: null }
}

/** Learns how the empty calculator reads, which tells what need not be in a link. */
function showBlank(): void {
  if (description() !== undefined) {
    setState({ blank: answer({ ...question({}), working: false }).fields })
  }
}

/** Asks for the answer with the next frame: several inputs of one frame ask once. */
function schedule(): void {
  if (frame === 0) {
    frame = requestAnimationFrame(refresh)
  }
}

function refresh(): void {
  cancelAnimationFrame(frame)
  frame = 0
  const { place, settings, answer: last, good, held } = getState()
  if (place.kind !== 'calculator' || description() === undefined) return
  const asked: Record<string, Entry> = { ...place.filling.current, ...Object.fromEntries(numbers) }
  const now = keepSame(last, answer(question(asked)))
  let { current } = place.filling
  for (const id of numbers.keys()) {
    current = withText(current, id, tidy(now.fields[id]?.text ?? ''))
  }
  const filled = { ...place.filling, current }
  numbers.clear()
  const hash = linkOf(filled, settings)
  if (filled.embed === null && hash !== null) noteVisitSoon({ calculator: filled.calculator, hash })
  setState({
    place: { ...place, filling: filled },
    answer: now,
    full: filled.embed === null && hash === null,
    good: now.report === null ? good : { texts: current, fields: now.fields, report: now.report },
    held: keepSame(
      held,
      place.filling.held.map(texts => held.find(held => held.texts === texts) ?? answerHeld(texts)),
    ),
  })
  ask()
  draw()
}

/** What is put on paper: the last good answer with its working, and the address that shows it. */
export function printed(): { good: Good; hash: string } | null {
  const shown = filling()
  const texts = getState().good?.texts
  if (shown === null || texts === undefined) return null
  const { fields, report } = answer({ ...question(texts), working: true })
  if (report === null) return null
  return { good: { texts, fields, report }, hash: linkOf({ ...shown, current: texts }, getState().settings) ?? '' }
}

function answerHeld(texts: Texts): Held {
  const { fields, report } = answer({ ...question(texts), working: false })
  return { texts, fields, report }
}

/** Asks backwards, once nothing more is typed for a moment. */
function ask(): void {
  clearTimeout(thinking)
  const shown = filling()
  const want = shown?.want
  if (!shown || !want || want.text.trim() === '' || want.field === '') {
    setAsking(false, null)
    return
  }
  setAsking(true, getState().backwards)
  thinking = setTimeout(() => {
    const { reading, text, field } = want
    const asked = { ...question(shown.current), working: false, backwards: { reading, value: text, field } }
    answerLong('backwards', asked, ({ backwards }) => {
      if (filling()?.want === want && filling()?.current === shown.current) setState({ backwards, asking: false })
    })
  }, PAUSE)
}

/** Draws rigs within the tolerances, once nothing more is typed for a moment. */
function draw(): void {
  const { answer, settings, spread } = getState()
  const shown = filling()
  if (!shown?.tolerance) {
    stopDrawing()
    return
  }
  const { current, tolerance } = shown
  if (drawn?.current === current && drawn.tolerance === tolerance && drawn.settings === settings) return
  stopDrawing(spread)
  setState({ spreading: true })
  // Of values that make no sense nothing can be drawn; the next ones will do.
  if (answer?.report === null) return
  const now = (drawn = { current, tolerance, settings })
  drawing = setTimeout(() => {
    const tolerances = { percent: { ...tolerance.percent }, draws: tolerance.draws, seed: 0 }
    answerLong('tolerances', { ...question(current), working: false, tolerances }, ({ tolerances }) => {
      if (drawn === now) setState({ spread: tolerances, spreading: false })
    })
  }, PAUSE)
}

/** Drops what is being drawn, and what was but for what may be kept to hold its place. */
function stopDrawing(kept: Spread | null = null): void {
  clearTimeout(drawing)
  dropLong('tolerances')
  drawn = null
  const { spread, spreading } = getState()
  if (spread !== kept || spreading) setState({ spread: kept, spreading: false })
}

function setAsking(asking: boolean, backwards: Backwards | null): void {
  const last = getState()
  if (last.asking !== asking || last.backwards !== backwards) setState({ asking, backwards })
}

/** The text of a field: what was typed, else its default as it reads among the others. */
export function textOf(id: string, texts: Texts, { answer, blank }: Pick<State, 'answer' | 'blank'>): string {
  return texts[id] ?? tidy((answer?.fields[id] ?? blank[id])?.text ?? '')
}

function withText(texts: Texts, id: string, text: string): Texts {
  const { [id]: _, ...others } = texts
  // What a field reads by itself need not be kept; a unit that is chosen may make its default another one.
  const spare =
    text === tidy(getState().blank[id]?.text ?? '') &&
    text === tidy(answer({ ...question(others), working: false }).fields[id]?.text ?? '')
  return spare ? others : { ...texts, [id]: text }
}

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

/** Has the address follow what was put in, the newest included. */
function follow(): void {
  if (filling()?.embed !== null) return
  address.replaceSoon(() => {
    if (frame !== 0) refresh()
    return currentHash()
  })
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
  const shown = filling()
  if (shown === null) return
  numbers.delete(id)
  fill({ current: withText(shown.current, id, text) }, 'follow')
}

/** Puts a number into a field, in its SI unit. */
export function putNumber(id: string, value: number): void {
  if (isFixed(embedOf(getState()), id)) return
  numbers.set(id, value)
  schedule()
  follow()
}

/** Chooses an answer of a choice field. */
export function choose(id: string, option: string): void {
  const shown = filling()
  if (shown === null) return
  const current = withText(shown.current, id, option)
  const chosen = (texts: Texts) => answer({ ...question(texts), working: false }).fields[id]?.text === option
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
  const { current, held, tolerance } = (filling()?.embed ? opened : null) ?? fresh('')
  fill({ current, held, want: null, tolerance }, 'new')
}

/** Holds the present values, to compare others with them. */
export function hold(): void {
  const shown = filling()
  if (shown !== null && shown.held.length < MOST_HELD) fill({ held: [...shown.held, { ...shown.current }] }, 'new')
}

export function drop(index: number): void {
  const shown = filling()
  if (shown !== null) fill({ held: shown.held.filter((_, at) => at !== index) }, 'new')
}

/** Makes held values the present ones, and holds those instead. */
export function swap(index: number): void {
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
  fill({ want: { reading: '', text: '', field: '', ...filling()?.want, ...change } }, 'follow')
}

/** Asks backwards no more. */
export function wantNothing(): void {
  fill({ want: null }, 'follow')
}

/** Turns tolerances on, or changes them. */
export function tolerate(change: Partial<Tolerance>): void {
  fill({ tolerance: { percent: {}, draws: DRAWS, ...filling()?.tolerance, ...change } }, 'follow')
}

/** Turns tolerances off. */
export function tolerateNothing(): void {
  fill({ tolerance: null }, 'follow')
}

/** Whether there is anything to go back from. */
export function isChanged({ place }: State): boolean {
  if (place.kind !== 'calculator') return false
  const { current, embed } = place.filling
  return embed === null ? Object.keys(current).length > 0 : current !== opened?.current
}

/** Takes over a value found backwards. */
export function takeOver(id: string, text: string): void {
  const shown = filling()
  if (shown !== null) fill({ current: withText(shown.current, id, tidy(text)) }, 'new')
}

/** Takes out of the values what no field of the calculator has. */
export function forget(ids: readonly string[]): void {
  const shown = filling()
  if (shown === null) return
  const gone = new Set(ids)
  fill({ current: Object.fromEntries(Object.entries(shown.current).filter(([id]) => !gone.has(id))) }, 'follow')
}

export function showWorking(working: boolean): void {
  setState({ working })
  note()
  if (working) refresh()
}

export function setTheme(theme: Theme): void {
  setState({ theme })
  showTheme(theme)
  keepPreferences({ theme })
  note()
}

/** Changes the settings; what was typed keeps its meaning. */
export function setSettings(change: Partial<Settings>): void {
  const { settings: from, place } = getState()
  const to = { ...from, ...change }
  setWords(pageWords(to))
  setState({ settings: to, held: [] })
  keepPreferences(change)
  note()
  if (place.kind !== 'calculator') return
  // Mains that nobody chose are those where the reader works, also when that changes.
  setState({ place: translated(place, { ...from, mains: to.mains }, to) })
  showBlank()
  refresh()
  follow()
}
