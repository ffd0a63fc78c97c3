// How readers call what is heard, and when that goes with none of it.

import type { Family, Heard } from '../../../generated/contract'
import { within } from '../../base/within'
import { say } from '../../base/words'
import { firstFamily } from './told'

/** By which symptoms a reader may call a sound of each family, the usual one first (judgement). */
const CALLED: Readonly<Record<Family, readonly [string, ...string[]]>> = {
  'mains-odd': ['hum', 'buzz'],
  'mains-even': ['buzz', 'hum'],
  dimmer: ['buzz'],
  telephone: ['radio', 'buzz'],
  whine: ['whine', 'radio'],
  hiss: ['hiss', 'radio'],
}

/** A family that fits as well as this beside the best may still be the one (judgement). */
const MAY_BE = 0.1

/** What a sound is like, and how most would call it. */
export interface Likeness {
  readonly family: Family
  readonly symptom: string
}

/** What is heard in place of the symptom that was chosen; nothing where it may be that. */
export function otherThan(symptom: string, heard: Heard | null): Likeness | null {
  const family = heard === null || heard.flaw !== null ? null : firstFamily(heard)
  if (heard === null || family === null) return null
  const mayBe = heard.families.some(
    ({ family, likelihood }) => likelihood >= MAY_BE && CALLED[family].includes(symptom),
  )
  return mayBe ? null : { family, symptom: CALLED[family][0] }
}

/** That a sound is like another than the chosen one. */
export function unlikeText(symptom: string, { family }: Likeness): string {
  return say('fault-listen-unlike', {
    symptom: within(say(`fault-symptom-${symptom}`)),
    family: say(`fault-listen-like-${family}`),
  })
}
