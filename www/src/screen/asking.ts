// How the engine is asked for what is on the screen, and its answers follow.

import type { Answer, Backwards, Entry, Question, Report, Settings, Spread } from '../../generated/contract'
import { shareStructure } from '../base/structural-sharing'
import { answer as engineAnswer, answerLong, dropLong } from '../engine/engine'
import * as address from './address'
import { noteVisitSoon } from './at-hand'
import { hushed } from './hush'
import { linkOf, type Texts, type Tolerance } from './link'
import { currentHash, description, filling } from './shown'
import { noteLeft } from './steps'
import { embedOf, getState, setState, type Good, type Held } from './store'
import { tidy } from './translate'

/** Numbers that sliders gave since the last answer; they become texts with it. */
export const numbers = new Map<string, number>()

let frame = 0

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
  return { calculator, values: { ...texts }, settings, working, backwards: null, cures: false, tolerances: null }
}

/** The engine's answer, as far as the screen may tell it. */
function answer(question: Question): Answer {
  return hushed(engineAnswer(question), embedOf(getState()), description())
}

/** Learns how the empty calculator reads, which tells what need not be in a link. */
export function showBlank(): void {
  if (description() !== undefined) {
    setState({ blank: answer({ ...question({}), working: false }).fields })
  }
}

/** Asks for the answer with the next frame: several inputs of one frame ask once. */
export function schedule(): void {
  if (frame === 0) {
    frame = requestAnimationFrame(refresh)
  }
}

export function refresh(): void {
  cancelAnimationFrame(frame)
  frame = 0
  const { place, settings, answer: last, good, held } = getState()
  if (place.kind !== 'calculator' || description() === undefined) return
  const asked: Record<string, Entry> = { ...place.filling.current, ...Object.fromEntries(numbers) }
  const now = shareStructure(last, answer(question(asked)))
  let { current } = place.filling
  for (const id of numbers.keys()) {
    current = withText(current, id, tidy(now.fields[id]?.text ?? ''))
  }
  const filled = { ...place.filling, current }
  numbers.clear()
  noteLeft(filled)
  const hash = linkOf(filled, settings)
  if (filled.embed === null && hash !== null) noteVisitSoon({ calculator: filled.calculator, hash })
  setState({
    place: { ...place, filling: filled },
    answer: now,
    full: filled.embed === null && hash === null,
    good: now.report === null ? good : { texts: current, fields: now.fields, report: now.report },
    held: shareStructure(
      held,
      place.filling.held.map(texts => held.find(held => held.texts === texts) ?? answerHeld(texts)),
    ),
  })
  ask()
  mend()
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
  const spare =
    text === tidy(getState().blank[id]?.text ?? '') &&
    text === tidy(answer({ ...question(others), working: false }).fields[id]?.text ?? '')
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
