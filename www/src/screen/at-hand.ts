// The calculators that are at hand on the start screen: those that were pinned,
// and the last ones, each with the values that it was left with.

import { areTexts, keep, keepChoice, load } from '../base/kept'
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
  return (load('recent', areVisits) ?? []).filter(({ hash }) => !isLong(hash))
}

export function pinned(): string[] {
  return load('pinned', areTexts) ?? []
}

export function pin(calculator: string, on: boolean): void {
  // Read anew: another tab may have pinned since.
  const others = pinned().filter(id => id !== calculator)
  keepChoice('pinned', on ? [...others, calculator] : others)
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

function areVisits(value: unknown): value is Visit[] {
  return (
    Array.isArray(value) &&
    value.every(({ calculator, hash }) => typeof calculator === 'string' && /^#\d/.test(String(hash)))
  )
}
