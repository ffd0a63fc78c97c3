// What a step that is asked from a calculator tells its learner: enough to answer it, and
// no more than can be taken in.

import type { FieldDescription, LessonRig } from '../../generated/contract'
import { say } from '../base/words'
import { shownDescription } from '../screen/descriptions'
import type { DraftStep } from '../screen/lesson-drafts'
import { getState } from '../screen/store'
import { decidingOf, LEAST_EFFECT } from './deciding'

/** A learner is told at most so many values (judgement). */
const MOST_GIVEN = 6

/** The fields that a learner is told: what was put in on this screen, then what decides the most. */
export function givenByDefault(rig: LessonRig, step: DraftStep): string[] {
  const state = getState()
  const description = shownDescription(state)
  if (description === undefined) return []
  const typed = new Set(Object.keys(state.good?.texts ?? {}))
  const first = new Set(description.first)
  const fields = description.fields.filter(({ id, detail }) => typed.has(id) || first.has(id) || !detail)
  const deciding = decidingOf(rig, step, fields)
  const effectOf = ({ id }: FieldDescription) => deciding.get(id)?.effect ?? 0
  const rankOf = ({ id }: FieldDescription) => (typed.has(id) ? 0 : first.has(id) ? 1 : 2)
  const most = Math.max(...fields.filter(({ number }) => number !== null).map(effectOf))
  const chosen = fields
    .filter(field => effectOf(field) > 0 && deciding.get(field.id)?.isSame !== true)
    .filter(field => rankOf(field) < 2 || field.number === null || effectOf(field) >= LEAST_EFFECT * most)
    .sort((a, b) => rankOf(a) - rankOf(b) || effectOf(b) - effectOf(a))
    .slice(0, MOST_GIVEN)
  return fields.filter(field => chosen.includes(field)).map(({ id }) => id)
}

/** A question to begin with. */
export function questionOf({ kind, title = '' }: DraftStep): string {
  if (kind === 'choice') return say('ask-text-choice')
  const inside = insideSentence(title)
  if (kind === 'curve') return say('ask-text-curve', { what: inside ?? title })
  return inside === null ? say('ask-text-named', { what: title }) : say('ask-text-number', { what: inside })
}

/** A name as it stands inside a sentence; nothing where it makes none. */
function insideSentence(name: string): string | null {
  const [first = ''] = /^[^\s,]*/.exec(name) ?? []
  // Symbols and what is written in capitals stay as they are, and so does what has two parts.
  const isPlain = /^\p{Lu}[\p{Ll}-]+$/u.test(first) && !name.includes(':')
  const inside = name.charAt(0).toLowerCase() + name.slice(1)
  return isPlain && !say('ask-text-no-noun').split(' ').includes(first.toLowerCase()) ? inside : null
}
