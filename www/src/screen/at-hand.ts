// The calculators that are at hand on the start screen: those that were pinned,
// with the values that they were pinned with, and the last ones, each with the
// values that it was left with.

import { isRecord, isText, keep, keepChoice, loadList } from '../base/kept'
import { isLong } from '../base/limit'

export interface Visit {
  readonly calculator: string
  /** The address of the screen as it was left. */
  readonly hash: string
}

const MOST = 4
/** The pause in typing after which a screen is noted. */
const PAUSE = 500

let noted: Visit | null = null
let timer: ReturnType<typeof setTimeout> | undefined

export function recent(): Visit[] {
  return loadList('recent', isVisit).filter(({ hash }) => !isLong(hash))
}

export function pinned(): string[] {
  return loadList('pinned', isText)
}

/** The screens that were pinned; a pin of an older version has none. */
export function pinnedScreens(): Visit[] {
  const pins = pinned()
  return screens().filter(({ calculator, hash }) => pins.includes(calculator) && !isLong(hash))
}

/** Those too that are too long to be read here, which another version may read. */
function screens(): Visit[] {
  return loadList('pinned-at', isVisit)
}

/** Pins a calculator with its screen, or lets it go. */
export function pin(calculator: string, hash: string | null): void {
  // Read anew: another tab may have pinned since.
  const others = pinned().filter(id => id !== calculator)
  const pins = screens().filter(visit => others.includes(visit.calculator))
  keepChoice('pinned-at', hash === null ? pins : [...pins, { calculator, hash }])
  keepChoice('pinned', hash === null ? others : [...others, calculator])
}

/** Notes the screen once nothing changes for a moment, or when it is left. */
export function noteVisitSoon(visit: Visit): void {
  noted = visit
  clearTimeout(timer)
  timer = setTimeout(noteVisit, PAUSE)
}

export function noteVisit(): void {
  clearTimeout(timer)
  const visit = noted
  noted = null
  if (visit === null) return
  const others = recent().filter(({ calculator }) => calculator !== visit.calculator)
  keep('recent', [visit, ...others].slice(0, MOST))
}

addEventListener('pagehide', noteVisit)
document.addEventListener('visibilitychange', noteVisit)

export function isVisit(value: unknown): value is Visit {
  return isRecord(value) && isText(value['calculator']) && isScreen(value['hash'])
}

function isScreen(hash: unknown): boolean {
  return isText(hash) && /^#\d/.test(hash)
}
