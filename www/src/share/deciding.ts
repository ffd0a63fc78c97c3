// Which fields of a rig decide what a step asks of it: each is changed alone, and what is
// asked is looked at again.

import {
  constants,
  type Echo,
  type Entry,
  type FieldDescription,
  type LessonRig,
  type Reading,
  type Report,
} from '../../generated/contract'
import { answer } from '../engine/engine'
import { written, type DraftStep } from '../screen/lesson-drafts'
import { isNear } from '../screen/translate'

/** A quantity that moves the answer by less than this share of the one that moves it most decides nothing (judgement). */
export const LEAST_EFFECT = 0.05

/** What a step asks of a rig. */
export type Sought = Pick<DraftStep, 'kind' | 'reading' | 'plot' | 'trace'>

export interface Deciding {
  /** How far what is asked moves when the field does, to be held against other fields. */
  readonly effect: number
  /** Whether the field is what is asked for, whatever stands in it. */
  readonly isSame: boolean
}

type Values = Readonly<Record<string, Entry>>

/** Answers how much each of these fields decides. */
export function decidingOf(rig: LessonRig, sought: Sought, fields: readonly FieldDescription[]): Map<string, Deciding> {
  const solve = (values: Values) => {
    const { calculator, mains } = rig
    const asked = { calculator, values: { ...values }, settings: written(mains), working: false, brief: false }
    return answer({ ...asked, backwards: null, cures: false, tolerances: null })
  }
  const base = solve(rig.values)
  const before = figuresOf(base.report, sought)
  const reading = readingOf(base.report, sought)
  return new Map(
    fields
      .filter(({ id }) => base.fields[id]?.active === true)
      .map(field => {
        const echo = base.fields[field.id]
        let [effect, isSame] = [0, isReading(echo, reading)]
        for (const other of others(field, echo)) {
          const { fields, report } = solve({ ...rig.values, [field.id]: other })
          effect = distance(before, figuresOf(report, sought), sought.kind === 'choice')
          if (effect === 0) continue
          isSame &&= isReading(fields[field.id], readingOf(report, sought))
          break
        }
        return [field.id, { effect, isSame }]
      }),
  )
}

/** Whether a field and a reading say the same: the number, and the unit that is printed behind it. */
function isReading(echo: Echo | undefined, reading: Reading | undefined): boolean {
  if (echo === undefined || echo.value === null || reading === undefined) return false
  return isNear(echo.value, reading.value) && unitIn(echo.text) === unitIn(reading.text)
}

function unitIn(text: string): string | undefined {
  return text.split(/\s/).at(-1)
}

/** What else may stand in a field: a little more or less first. */
function others({ number, choice }: FieldDescription, echo: Echo | undefined): Entry[] {
  const value = echo?.value ?? null
  if (choice !== null) return choice.options.map(({ id }) => id).filter(id => id !== echo?.text)
  if (number === null || value === null) return []
  const { unit, least, most, usual_from, usual_to } = number
  const near = constants.levels.includes(unit) ? [value + 1, value - 1] : [value * 1.1, value / 1.1]
  return [...near, usual_to, usual_from].filter(other => other !== value && other >= least && other <= most)
}

function readingOf(report: Report | null, { reading }: Sought): Reading | undefined {
  return [...(report?.headline ?? []), ...(report?.further ?? [])].find(({ id }) => id === reading)
}

/** What is asked for, in numbers; nothing where the rig does not give it. */
function figuresOf(report: Report | null, sought: Sought): number[] | null {
  if (report === null) return null
  if (sought.kind === 'choice') {
    const ways = [...report.ranking].sort((a, b) => (a.id < b.id ? -1 : 1))
    return ways.flatMap(({ place, reasons }) => [place ?? 0, ...reasons.map(({ reading }) => reading.value ?? 0)])
  }
  if (sought.kind === 'curve') {
    const traces = report.plots.find(({ id }) => id === sought.plot)?.traces ?? []
    return (traces.find(({ id }) => id === sought.trace) ?? traces.find(({ reference }) => !reference))?.y ?? null
  }
  const value = readingOf(report, sought)?.value ?? null
  return value === null ? null : [value]
}

/** How far apart they are: of figures in several units, in shares of each. */
function distance(before: number[] | null, after: number[] | null, isShare: boolean): number {
  // What cannot be told any more says nothing of what decides it.
  if (before === null || after === null) return 0
  const most = Math.max(before.length, after.length)
  const parts = Array.from({ length: most }, (_, at) => {
    const [was = 0, is = 0] = [before[at], after[at]]
    const apart = isNear(was, is) ? 0 : Math.abs(is - was)
    return isShare ? apart / (Math.abs(was) || 1) : apart
  })
  return parts.reduce((sum, part) => sum + part, 0) / (most || 1)
}
