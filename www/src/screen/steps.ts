// What was done on a calculator, step by step, to undo it and do it again. Each
// step is the address of the screen before it: an address says all of it, and
// under which settings it was written.

import { areTexts, isRecord } from '../base/kept'
import type { Way } from '../base/undo-way'
import { linkOf, readPlace, type Filling } from './link'
import { getState, putState } from './store'
import { translated } from './translate'

interface Steps {
  readonly undo: string[]
  readonly redo: string[]
  /** The screen as it was left. */
  left: string | null
}

/** At most this many steps are remembered of each calculator. */
const MOST = 100
/** A pause in typing that ends a step, in milliseconds. */
const PAUSE = 1500
const KEY = 'stageohm.steps'
/** All lessons have one place, since one frame has one lesson. */
const LESSON = '?lesson'

let known: Map<string, Steps> | null = null
/** What the step at hand changes; it goes on while the same is changed. */
let changing: string | null = null
let changed = 0
/** Whether a pointer is down: a slide may rest for a while. */
let isPressed = false

/**
 * Something is about to change: notes the screen as it is, unless the step at
 * hand goes on. What has no name is a step of its own.
 */
export function noteStep(what: string | null, before: () => Filling | null): void {
  const now = performance.now()
  const goesOn = what !== null && what === changing && (isPressed || now - changed < PAUSE)
  changing = what
  changed = now
  if (goesOn) return
  const filling = before()
  if (filling !== null) push(stepsOf(filling), addressOf(filling))
}

/** Ends the step at hand: what comes next is one of its own. */
export function endStep(): void {
  changing = null
}

/** The screen of a calculator was opened: how it was left is a step back. */
export function noteOpened(filling: Filling): void {
  endStep()
  const isLesson = filling.embed !== null
  if (isLesson) all().delete(LESSON)
  const steps = stepsOf(filling)
  if (!isLesson && steps.left !== null && steps.left !== addressOf(filling)) push(steps, steps.left)
  else show(steps)
}

/** The screen is drawn: it may be left from here. */
export function noteLeft(filling: Filling): void {
  stepsOf(filling).left = addressOf(filling)
}

/** What the screen was before its last step, or before that was undone; nothing where it never was. */
export function stepBack(filling: Filling, way: Way): Filling | null {
  endStep()
  const steps = stepsOf(filling)
  const here = addressOf(filling)
  let to: Filling | null = null
  // A step that came to nothing is none.
  while (to === null && steps[way].length > 0) {
    const read = readFilling(steps[way].pop() ?? '')
    if (read !== null && addressOf(read) !== here) to = { ...read, embed: filling.embed }
  }
  // What is too long for an address cannot be come back to.
  if (to !== null && here !== null) steps[way === 'undo' ? 'redo' : 'undo'].push(here)
  show(steps)
  return to
}

function readFilling(address: string): Filling | null {
  const read = readPlace(address)
  if (read.kind !== 'calculator') return null
  const now = getState().settings
  // Mains that nobody chose are those where the reader works, as they are now.
  const place = read.settings === null ? read : translated(read, { ...read.settings, mains: now.mains }, now)
  return place.kind === 'calculator' ? place.filling : null
}

function push(steps: Steps, address: string | null): void {
  if (address === null || address === steps.undo.at(-1)) return
  steps.undo.push(address)
  steps.undo.splice(0, steps.undo.length - MOST)
  steps.redo.length = 0
  show(steps)
}

function show({ undo, redo }: Steps): void {
  putState({ undoable: undo.length > 0, redoable: redo.length > 0 })
}

function addressOf(filling: Filling): string | null {
  return linkOf({ ...filling, embed: null }, getState().settings)
}

function stepsOf({ calculator, embed }: Filling): Steps {
  const key = embed === null ? calculator : LESSON
  const steps = all().get(key) ?? { undo: [], redo: [], left: null }
  all().set(key, steps)
  return steps
}

function all(): Map<string, Steps> {
  known ??= new Map(Object.entries(load()))
  return known
}

/** What the tab kept across a reload. */
function load(): Record<string, Steps> {
  try {
    const read: unknown = JSON.parse(sessionStorage.getItem(KEY) ?? '{}')
    return isRecord(read) && Object.values(read).every(areSteps) ? (read as Record<string, Steps>) : {}
  } catch {
    // Refused, or no text of ours: a convenience is gone, and nothing else.
    return {}
  }
}

function areSteps(value: unknown): boolean {
  if (!isRecord(value)) return false
  const { undo, redo, left } = value
  return areTexts(undo) && areTexts(redo) && (left === null || typeof left === 'string')
}

function keep(): void {
  if (known === null) return
  const { [LESSON]: _, ...kept } = Object.fromEntries(known)
  try {
    sessionStorage.setItem(KEY, JSON.stringify(kept))
  } catch {
    // Refused, or full.
  }
}

addEventListener('pagehide', keep)
document.addEventListener('visibilitychange', keep)
// A slider may take the focus only after it has moved.
document.addEventListener('focusin', () => isPressed || endStep())
for (const type of ['pointerdown', 'pointerup', 'pointercancel'] as const) {
  addEventListener(
    type,
    ({ target }) => {
      isPressed = type === 'pointerdown'
      // What the number pad does not have is typed too.
      if (!(target instanceof Element && target.closest('.thumb-keys'))) endStep()
    },
    true,
  )
}
