// What the calculator of a rig has to offer to a step.

import type { Candidate, Description, LessonRig, Plot, Reading } from '../../../generated/contract'
import { answer } from '../../engine/engine'
import { descriptionOf } from '../../screen/descriptions'
import { written } from '../../screen/lesson-drafts'
import type { Texts } from '../../screen/link'

export interface Offers {
  readonly description: Description
  readonly readings: readonly Reading[]
  readonly plots: readonly Plot[]
  readonly ranking: readonly Candidate[]
  /** What stands in each field. */
  readonly values: Texts
}

const known: { rig: LessonRig; values: string; offers: Offers | null }[] = []
/** So many rigs are remembered. */
const MOST = 8

/** Nothing where the calculator is not known. */
export function offersOf(rig: LessonRig | null | undefined, values: Texts = {}): Offers | null {
  if (!rig || rig.calculator === '') return null
  const said = JSON.stringify(values)
  const before = known.find(one => one.rig === rig && one.values === said)
  if (before !== undefined) return before.offers
  const offers = ask(rig, values)
  known.unshift({ rig, values: said, offers })
  known.splice(MOST)
  return offers
}

function ask({ calculator, mains, values }: LessonRig, others: Texts): Offers | null {
  const settings = written(mains)
  const description = descriptionOf(calculator, settings)
  if (description === undefined) return null
  const { fields, report } = answer({
    calculator,
    values: { ...values, ...others },
    settings,
    working: false,
    brief: false,
    backwards: null,
    cures: false,
    tolerances: null,
  })
  return {
    description,
    readings: [...(report?.headline ?? []), ...(report?.further ?? [])],
    plots: report?.plots ?? [],
    ranking: report?.ranking ?? [],
    values: Object.fromEntries(Object.entries(fields).map(([id, { text }]) => [id, text.replaceAll('\u00a0', ' ')])),
  }
}

/** A calculator with these values, and every other one as it begins. */
export function pinned(calculator: string, mains: LessonRig['mains'], texts: Texts = {}): LessonRig {
  const rig = { calculator, mains, values: { ...texts } }
  return { ...rig, values: { ...texts, ...ask(rig, {})?.values } }
}
