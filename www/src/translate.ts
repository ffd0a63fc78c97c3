// Texts written under one reader's settings, for a reader with others: a bare
// 6 may be metres here and feet there, and 1,5 is a number only to some.

import type { Entry, Settings } from '../generated/contract'
import { answer } from './engine'
import type { Texts } from './link'

/** The texts, rewritten where they would mean something else. */
export function translate(calculator: string, texts: Texts, from: Settings, to: Settings): Texts {
  if (from === to) return texts
  const echoes = (values: Record<string, Entry>, settings: Settings) =>
    answer({ calculator, values, settings, working: false, backwards: null, tolerances: null }).fields
  const before = echoes({ ...texts }, from)
  const after = echoes({ ...texts }, to)
  const meant: Record<string, Entry> = {}
  for (const [id, echo] of Object.entries(before)) {
    if (echo.problem !== null) continue
    const same = echo.value === null ? echo.text === after[id]?.text : isNear(echo.value, after[id]?.value)
    if (!same || after[id]?.problem) meant[id] = echo.value ?? echo.text
  }
  if (Object.keys(meant).length === 0) return texts
  const written = echoes({ ...texts, ...meant }, to)
  const changed = Object.keys(meant).map(id => [id, tidy(written[id]?.text ?? '')])
  return { ...texts, ...Object.fromEntries(changed) }
}

/** A printed text as one would type it. */
export function tidy(text: string): string {
  return text.replaceAll('\u00a0', ' ').replaceAll('−', '-')
}

/** Whether two numbers are the same but for the last digits that print and reading cost. */
export function isNear(a: number, b: number | null | undefined): boolean {
  return typeof b === 'number' && Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b))
}
