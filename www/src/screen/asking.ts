// How the engine is asked for what is on the screen, and its answers follow.

import type { Answer, Backwards, Entry, Question, Report, Settings, Spread } from '../../generated/contract'
import { shareStructure } from '../base/structural-sharing'
import { answer as engineAnswer, answerLong, dropLong } from '../engine/engine'
import * as address from './address'
import { noteVisitSoon } from './at-hand'
import { hushed } from './hush'
import { linkOf, type Place, type Texts, type Tolerance } from './link'
import { currentHash, description, filling } from './shown'
import { noteLeft } from './steps'
import { embedOf, getState, setState, type Good, type Held } from './store'
import { tidy } from './translate'

/** Numbers that sliders gave since the last answer; they become texts with it. */
export const numbers = new Map<string, number>()

/** The frame in which what is read first follows the newest input. */
let frame = 0

/** The frame after it, in which all else does. */
let rest = 0

/** Since when all else is behind, by the browser's clock. */
let behind = 0

/** How long all else may be put off for newer inputs, in milliseconds: a curve is to move with a finger. */
const LATEST = 50

let thinking: ReturnType<typeof setTimeout> | undefined

let mending: ReturnType<typeof setTimeout> | undefined

let drawing: ReturnType<typeof setTimeout> | undefined

/** What the band on the screen, or the one that is being drawn, was drawn of. */
let drawn: { current: Texts; tolerance: Tolerance; settings: Settings } | null = null

/** The pause in typing after which a long question is asked. */
const PAUSE = 150

export function question(texts: Readonly<Record<string, Entry>>): Question {
  const { settings, working } = getState()
  const calculator = filling()?.calculator ?? ''
  const nothingElse = { brief: false, backwards: null, cures: false, tolerances: null }
  return { calculator, values: { ...texts }, settings, working, ...nothingElse }
}

/** The engine's answer, as far as the screen may tell it. */
function answer(question: Question): Answer {
  return hushed(engineAnswer(question), embedOf(getState()), description())
}

/** How fields with these texts read. */
export function fieldsOf(texts: Texts): Answer['fields'] {
  return answer({ ...question(texts), brief: true }).fields
}

/** Learns how the empty calculator reads, which tells what need not be in a link. */
export function showBlank(): void {
  if (description() !== undefined) {
    setState({ blank: fieldsOf({}) })
  }
}

/**
 * Asks with the next frame, once for all inputs before it: first for what is read
 * first, and in the frame after for all else. An input that comes in between is read
 * first again, unless all else has waited for long.
 */
export function schedule(): void {
  if (frame !== 0) return
  if (rest !== 0 && performance.now() - behind < LATEST) cancelAnimationFrame(rest)
  frame = requestAnimationFrame(begin)
}

/** What is read first: the fields and the headline. */
function begin(now: number): void {
  frame = 0
  const asked = askNow(true)
  if (asked === null) return
  const { place, answer, good } = asked
  const { lead, spreading } = getState()
  // A band that is drawn already is not of these values.
  const moved = place.filling.tolerance !== null && place.filling.current !== drawn?.current
  setState({ place, answer, lead: good ?? lead, spreading: spreading || moved })
  if (rest === 0) behind = now
  rest = requestAnimationFrame(refresh)
}

/** Everything, at once. */
export function refresh(): void {
  cancelAnimationFrame(frame)
  cancelAnimationFrame(rest)
  frame = rest = 0
  const asked = askNow(false)
  if (asked === null) return
  const { place, answer, good } = asked
  const { settings, lead: first, good: last, held } = getState()
  const { filling } = place
  noteLeft(filling)
  const hash = linkOf(filling, settings)
  if (filling.embed === null && hash !== null) noteVisitSoon({ calculator: filling.calculator, hash })
  setState({
    place,
    answer,
    full: filling.embed === null && hash === null,
    good: good ?? last,
    lead: good ?? first,
    held: shareStructure(
      held,
      filling.held.map(texts => held.find(held => held.texts === texts) ?? answerHeld(texts)),
    ),
  })
  ask()
  mend()
  draw()
}

interface Asked {
  readonly place: Extract<Place, { kind: 'calculator' }>
  readonly answer: Answer
  /** The same, where it has a report. */
  readonly good: Good | null
}

/** The answer to the newest input, whose numbers become texts with it; nothing where there is no calculator. */
function askNow(brief: boolean): Asked | null {
  const { place, answer: last, good, lead } = getState()
  if (place.kind !== 'calculator' || description() === undefined) return null
  const entries: Record<string, Entry> = { ...place.filling.current, ...Object.fromEntries(numbers) }
  const newest = shareStructure(last, answer({ ...question(entries), brief }))
  const report = shareStructure((brief ? lead : good)?.report, newest.report)
  let { current } = place.filling
  for (const id of numbers.keys()) {
    current = withText(current, id, tidy(newest.fields[id]?.text ?? ''))
  }
  numbers.clear()
  return {
    place: { ...place, filling: { ...place.filling, current } },
    answer: report === newest.report ? newest : { ...newest, report },
    good: report && { texts: current, fields: newest.fields, report },
  }
}

/** Has all follow that still waits for its frame, before somebody takes it away. */
export function settle(): void {
  if (frame !== 0 || rest !== 0) refresh()
}

/** Another screen comes: what was put in a moment ago stays with the one before it. */
export function leave(): void {
  const shown = filling()
  if (rest !== 0 && shown !== null) noteLeft(shown)
  numbers.clear()
}

/** What is put on paper: the last good answer with its working, and the address that shows it. */
export function printed(): { good: Good; hash: string } | null {
  settle()
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

/** Asks what would mend the limits that are missed, once nothing more is typed for a moment. */
function mend(): void {
  clearTimeout(mending)
  const { answer, good, cures } = getState()
  const shown = filling()
  const missed = good !== null && isMissing(good.report)
  if (!missed || shown === null) {
    dropLong('cures')
    if (cures.length > 0) setState({ cures: [] })
    return
  }
  // Of values that make no sense nothing can be mended; the last good ones still stand.
  if (answer?.report === null) return
  mending = setTimeout(() => {
    const { current } = shown
    answerLong('cures', { ...question(current), working: false, cures: true }, ({ cures }) => {
      if (filling()?.current === current) setState({ cures: cures ?? [] })
    })
  }, PAUSE)
}

function isMissing({ headline, further, ranking }: Report): boolean {
  const told = [...headline, ...further].some(({ verdict }) => verdict?.tone === 'trouble')
  return told || ranking.some(({ place, verdict }) => place === 1 && verdict.tone === 'watch')
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
export function stopDrawing(kept: Spread | null = null): void {
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

export function withText(texts: Texts, id: string, text: string): Texts {
  const { [id]: _, ...others } = texts
  // What a field reads by itself need not be kept; a unit that is chosen may make its default another one.
  const spare = text === tidy(getState().blank[id]?.text ?? '') && text === tidy(fieldsOf(others)[id]?.text ?? '')
  return spare ? others : { ...texts, [id]: text }
}

/** Has the address follow what was put in, the newest included. */
export function follow(): void {
  if (filling()?.embed !== null) return
  address.replaceSoon(() => {
    if (frame !== 0) refresh()
    return currentHash()
  })
}
