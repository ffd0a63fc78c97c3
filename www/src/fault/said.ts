// How steps, outcomes and causes are called, and how small numbers are written.

import type { FaultFigure, NextStep, Settings, StepOutcome } from '../../generated/contract'
import { within } from '../base/within'
import { say } from '../base/words'

/** What the identifier of a step that tries the cure of a cause begins with. */
const CURE = 'cure-'

/** The cause whose cure a step tries; nothing for a test. */
function curedBy(step: string): string | null {
  return step.startsWith(CURE) ? step.slice(CURE.length) : null
}

/** A word of the catalogue; nothing where it has none. */
function known(key: string, args?: Readonly<Record<string, string>>): string | null {
  const text = say(key, args)
  return text === key ? null : text
}

/** Whether this is a test or a cure that is known, on this line or another. */
export function isStep(step: string): boolean {
  const cure = curedBy(step)
  return known(cure === null ? `fault-test-${step}-look` : `fault-cause-${cure}-cure`) !== null
}

export function causeName(id: string): string {
  return known(`fault-cause-${id}`) ?? id
}

/** How a cause is cured: as the models say, else as it mostly is. */
export function cureOf(id: string, by: string | null = null): string {
  return (by === null ? null : known(`fault-by-${by}`)) ?? known(`fault-cause-${id}-cure`) ?? causeName(id)
}

/** A step by its name, and what the models say of its cure. */
interface Deed {
  readonly step: string
  readonly by?: string | null
}

/** What to do with a source that is called so: the first sentence, and what else there is to say. */
export function deedOf({ step, by = null }: Deed, source: string): readonly [deed: string, more: string] {
  const cure = curedBy(step)
  const test = () => known(`fault-test-${step}-${source}`) ?? known(`fault-test-${step}`) ?? step
  const text = cure === null ? test() : cureOf(cure, by)
  const end = text.search(/\.(?= )/) + 1
  return end === 0 ? [text, ''] : [text.slice(0, end), text.slice(end + 1)]
}

/** What to look for. */
export function lookOf(step: string): string {
  const cure = curedBy(step)
  return cure === null ? (known(`fault-test-${step}-look`) ?? '') : say('fault-cure-look')
}

/** What can hurt somebody or something; nothing mostly. */
export function cautionOf(step: string): string | null {
  const cure = curedBy(step)
  return known(cure === null ? `fault-test-${step}-caution` : `fault-cause-${cure}-caution`)
}

/** What came of a step, in the words of that step where it has its own. */
export function outcomeName(step: string, outcome: string | null): string {
  if (outcome === null) return say('fault-outcome-unknown')
  return known(`fault-outcome-${step}-${outcome}`) ?? known(`fault-outcome-${outcome}`) ?? outcome
}

export function figureText({ id, of, text }: FaultFigure): string {
  const cause = of === null ? '' : within(causeName(of))
  return known(`fault-figure-${id}`, { cause, text }) ?? text
}

/** A number with so many digits behind the point, as the reader writes it. */
export function numeral(value: number, digits: number, { decimal }: Settings): string {
  const text = value.toFixed(digits)
  return decimal === 'comma' ? text.replace('.', ',') : text
}

/** How long something takes. */
export function duration(minutes: number, settings: Settings): string {
  if (minutes < 0.95) return say('fault-seconds', { count: `${Math.max(5, Math.round((minutes * 60) / 5) * 5)}` })
  return say('fault-minutes', { minutes: numeral(minutes, minutes % 1 === 0 ? 0 : 1, settings) })
}

/** Of a few bits a test that asks evenly gets one. */
const [HALF, MUCH] = [0.7, 0.3]

/** Why a step is the next one, in one sentence or two. */
export function whyOf(step: NextStep, settings: Settings): string {
  const { bits, minutes, to_go: left } = step
  const how = bits >= HALF ? 'half' : bits >= MUCH ? 'much' : 'some'
  const time = duration(minutes, settings)
  const why = say(`fault-why-${how}`, { bits: numeral(bits, 1, settings), time })
  const rest = left === null ? [] : [say('fault-why-to-go', { time: duration(left, settings) })]
  return [why, ...leadsOf(step), ...rest].join(' ')
}

/** Where the likeliest outcomes lead, as far as they lead elsewhere. */
function leadsOf({ step, outcomes }: NextStep): string[] {
  const likely = [...outcomes].filter(({ stops }) => !stops).sort((a, b) => b.share - a.share)
  const apart = likely.filter(({ leads }, at) => likely.findIndex(other => other.leads === leads) === at).slice(0, 2)
  const said = ({ outcome, leads }: StepOutcome) =>
    say('fault-why-leads', { outcome: within(outcomeName(step, outcome)), cause: within(causeName(leads)) })
  const [only] = apart
  if (apart.length === 1 && only !== undefined)
    return [say('fault-why-surer', { cause: within(causeName(only.leads)) })]
  return apart.map(said)
}
