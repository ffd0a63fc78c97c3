// The walks that were counted on this device, each once, however often it is opened.

import { isRecord, isText, keepChoice, loadList } from '../base/kept'
import { DEFAULTS } from '../screen/settings'
import { getState, isEmbedded } from '../screen/store'
import { translate } from '../screen/translate'
import { isSame, NOTHING, readSearch, WHOLE_LINE, writeSearch, type Search } from './address'
import { count, countedHere, forgetCounted } from './counted'

/** A walk by its address, and the cause that it was counted for. */
interface Walk {
  readonly walk: string
  readonly cause: string
}

/** Under this key they lie in this browser, the newest first. */
const WALKS = 'fault-walks'
/** Of one that is older than so many others nobody asks any more. */
const MOST_WALKS = 200

/** The cause that this walk was counted for; nothing where it was not. */
export function countedFor(search: Search): string | null {
  return sameOf(search)?.cause ?? null
}

/** How often each cause was the one on this device, in other walks: none bears on itself. */
export function countedBeside(search: Search): Readonly<Record<string, number>> {
  const [counted, own] = [countedHere(), countedFor(search)]
  return own === null ? counted : { ...counted, [own]: Math.max(0, (counted[own] ?? 0) - 1) }
}

/** Counts this walk for a cause in place of any other, or for none. */
export function countWalk(search: Search, cause: string | null): void {
  const same = sameOf(search)
  if (same !== undefined) count(same.cause, -1)
  if (cause !== null) count(cause, 1)
  const others = walksHere().filter(({ walk }) => walk !== same?.walk)
  const counted = cause === null ? [] : [{ walk: writeSearch(plain(search)), cause }]
  keepChoice(WALKS, [...counted, ...others].slice(0, MOST_WALKS))
}

/** Forgets all that was counted. */
export function forgetWalks(): void {
  forgetCounted()
  keepChoice(WALKS, [])
}

function sameOf(search: Search): Walk | undefined {
  const here = plain(search)
  return walksHere().find(({ walk }) => isSameWalk(readSearch(walk), here))
}

/** Whether one is the other, or goes on from it. */
function isSameWalk(one: Search, other: Search): boolean {
  if (one.symptom !== other.symptom || one.scope !== other.scope || !isSame(one.texts, other.texts)) return false
  const [short, long] = one.done.length < other.done.length ? [one, other] : [other, one]
  return short.done.every(({ step, outcome }) => long.done.some(one => one.step === step && one.outcome === outcome))
}

/** What of a search makes it this one, whatever the reader's settings are. */
function plain({ symptom, scope, texts, settings, done }: Search): Search {
  const line = translate(WHOLE_LINE, { texts, want: null }, settings, DEFAULTS).texts
  return { ...NOTHING, symptom, scope, texts: line, done }
}

function walksHere(): Walk[] {
  return isEmbedded(getState()) ? [] : loadList(WALKS, isWalk)
}

function isWalk(value: unknown): value is Walk {
  return isRecord(value) && isText(value['walk']) && isText(value['cause'])
}
