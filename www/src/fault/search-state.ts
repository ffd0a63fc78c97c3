// Where the search for a fault stands. The address is its state: whatever is done goes
// there, so that the way back of the browser takes a step back and a reload loses nothing.

import type { FaultQuestion, KnownCause, Settings, Sound } from '../../generated/contract'
import { keep } from '../base/kept'
import { isLong } from '../base/limit'
import * as address from '../screen/address'
import { writeFault } from '../screen/link'
import { getState, isEmbedded, setState } from '../screen/store'
import { translate } from '../screen/translate'
import { readSearch, WHOLE_LINE, writeSearch, type Done, type Search } from './address'
import { timesHere } from './counted'
import { countedBeside } from './walks'

/** Under this key lies the address of the search that was left last. */
export const LAST = 'fault-last'

/** The search of an address, with texts as this reader writes them. */
export function searchOf(rest: string, settings: Settings): Search {
  const search = readSearch(rest)
  const { texts } = translate(WHOLE_LINE, { texts: search.texts, want: null }, search.settings, settings)
  return { ...search, texts, settings }
}

/** The search on the screen. */
export function present(): Search {
  const { place, settings } = getState()
  return searchOf(place.kind === 'fault' ? place.rest : '', settings)
}

/** Goes on with the search: as a step that the way back leads back from, or in place, as typing does. */
export function go(change: Partial<Search>, how: 'step' | 'typing' = 'step'): void {
  const next = { ...present(), spare: [], ...change }
  const rest = writeSearch(next)
  const hash = writeFault(rest)
  setState({ place: { kind: 'fault', rest } })
  // A lesson leaves the history of the page around it alone.
  if (isLong(hash) || isEmbedded(getState())) return
  if (how === 'step') address.push(hash)
  else address.replaceSoon(() => hash)
  if (next.done.length > 0) keep(LAST, hash)
}

/** Puts down what came of a step. */
export function tell(step: string, outcome: string | null): void {
  const { done } = present()
  const answer: Done = { step, outcome }
  const isDone = done.some(other => other.step === step)
  go({ now: '', done: isDone ? done.map(other => (other.step === step ? answer : other)) : [...done, answer] })
}

/** Takes back what came of a step. */
export function takeBack(step: string): void {
  go({ done: present().done.filter(other => other.step !== step) })
}

/** How many times as common as judged each cause is taken to be: as the link says, else as this device has it. */
export function timesOf({ times }: Search): Readonly<Record<string, number>> {
  return times ?? timesHere()
}

/** What is asked of the core. */
export function questionOf(search: Search, sound: Sound | null): FaultQuestion {
  const { danger, symptom, scope, texts, settings, done, now } = search
  return {
    values: { ...texts },
    settings,
    danger,
    symptom,
    scope,
    answers: done.map(one => ({ ...one })),
    wanted: now === '' ? null : now,
    known: knownOf(search),
    sound,
    plan: null,
  }
}

function knownOf(search: Search): KnownCause[] {
  const [times, seen] = [timesOf(search), countedBeside(search)]
  const causes = new Set([...Object.keys(times), ...Object.keys(seen)])
  return [...causes].map(cause => ({ cause, times: times[cause] ?? 1, seen: seen[cause] ?? 0 }))
}
