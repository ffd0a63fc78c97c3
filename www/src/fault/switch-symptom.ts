// Starting again with another symptom, and what was said before that.

import { askStage } from '../engine/stage'
import type { Search } from './address'
import { go, present, questionOf } from './search-state'

type Said = Pick<Search, 'symptom' | 'scope' | 'done'>

/** What was said before a symptom took the place of another, by what was said then. */
const replaced = new Map<string, Said>()

/** Starts again with another symptom, on the same line and with the answers that go with it. */
export async function switchSymptom(symptom: string): Promise<void> {
  const before = present()
  const done = await goingWith(symptom, before)
  // Somebody may have gone on meanwhile.
  if (nameOf(present()) !== nameOf(before)) return
  const { scope } = before
  replaced.set(nameOf({ symptom, scope, done }), { symptom: before.symptom, scope, done: before.done })
  go({ symptom, done, now: '' })
}

/** What was said before the last switch, once; nothing where none led here. */
export function takeReplaced(search: Search): Said | null {
  const name = nameOf(search)
  const said = replaced.get(name) ?? null
  replaced.delete(name)
  return said
}

/** Forgets all switches: what comes is another search. */
export function forgetReplaced(): void {
  replaced.clear()
}

/** The answers whose steps the line has with another symptom too. */
async function goingWith(symptom: string, search: Search): Promise<Search['done']> {
  if (search.done.length === 0) return search.done
  const question = questionOf({ ...search, symptom, now: '' }, null)
  const { unknown } = await askStage('fault_find', question)
  return search.done.filter(({ step }) => !unknown.includes(step))
}

function nameOf({ symptom, scope, done }: Said): string {
  return JSON.stringify([symptom, scope, done])
}
