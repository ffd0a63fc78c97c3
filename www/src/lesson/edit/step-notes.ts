// What a trainer should look at in the steps of a lesson, and what to do about it.

import type { Doubt, DrawRange, FieldDescription, Lesson, LessonStep, StepCheck } from '../../../generated/contract'
import { say } from '../../base/words'
import { descriptionOf } from '../../screen/descriptions'
import { DEFAULTS } from '../../screen/settings'
import { decidingOf, LEAST_EFFECT } from '../../share/deciding'
import { asks } from '../lesson-state'

export interface StepNote {
  /** The step, from 0 on; nothing where it is about all of them. */
  readonly at: number | null
  readonly text: string
}

/** What is asked of these is worked out from values. */
const WORKED_OUT = ['number', 'magnitude', 'curve']
const DOUBTS: readonly Doubt[] = ['unsolvable', 'trivial', 'boundary', 'told']

/** Notes on steps as they are written, and on what `rows` of seeds found in them. */
export function notesOf(lesson: Lesson, rows: readonly (readonly StepCheck[])[]): StepNote[] {
  const dealt = Object.keys(lesson.draw).filter(id => differs(lesson.draw[id]))
  const same = lesson.steps.map(
    (step, at) =>
      // By seed another thing is wrong, or X another rig.
      !['fault', 'ear'].includes(step.kind) &&
      (reaching(lesson, step, dealt).length === 0 || isOneAnswer(rows.map(row => row[at]?.key?.value ?? null))),
  )
  const asking = lesson.steps.flatMap((step, at) => (asks(step) ? [at] : []))
  const areAllSame = asking.length > 0 && asking.every(at => same[at])
  const ofSteps = lesson.steps.flatMap((step, at) =>
    !asks(step)
      ? []
      : [
          ...doubtsOf(
            step,
            rows.map(row => row[at]),
          ),
          ...(isBlind(step) ? [say('lesson-edit-note-blind')] : []),
          ...ofFields(lesson, step, dealt),
          ...(same[at] === true && !areAllSame ? [say('lesson-edit-note-same')] : []),
        ].map(text => ({ at, text })),
  )
  return [...(areAllSame ? [{ at: null, text: say('lesson-edit-note-all-same') }] : []), ...ofSteps]
}

function differs(range: DrawRange | undefined): boolean {
  const of = range?.of ?? []
  return of.length === 0 ? range !== undefined && range.from !== range.to : new Set(of).size > 1
}

/** Whether all seeds ask for one and the same number: what is dealt does not decide it. */
function isOneAnswer(keys: readonly (number | null)[]): boolean {
  const [first = null] = keys
  return first !== null && keys.every(key => key === first)
}

/** The fields that are dealt and stand in the rig of this step as they were dealt. */
function reaching(lesson: Lesson, step: LessonStep, dealt: readonly string[]): FieldDescription[] {
  const fields = descriptionOf((step.rig ?? lesson.rig).calculator, DEFAULTS)?.fields ?? []
  return fields.filter(({ id }) => dealt.includes(id) && !Object.hasOwn(step.values, id))
}

/** Whether nothing tells the learner any value, be it in words. */
function isBlind({ kind, given, text, ways }: LessonStep): boolean {
  const isAsked = WORKED_OUT.includes(kind) || kind === 'choice'
  return isAsked && given.length === 0 && ways.length === 0 && !/\d/.test(text)
}

function ofFields(lesson: Lesson, step: LessonStep, dealt: readonly string[]): string[] {
  if (!WORKED_OUT.includes(step.kind)) return []
  const { calculator, mains, values } = step.rig ?? lesson.rig
  const fields = descriptionOf(calculator, DEFAULTS)?.fields ?? []
  const others = reaching(lesson, step, dealt).filter(
    ({ id, name }) => !step.given.includes(id) && !step.text.toLowerCase().includes(name.toLowerCase()),
  )
  const given = fields.filter(({ id }) => step.given.includes(id))
  const deciding = decidingOf({ calculator, mains, values: { ...values, ...step.values } }, step, [...others, ...given])
  const effectOf = ({ id }: FieldDescription) => deciding.get(id)?.effect ?? 0
  const most = Math.max(...[...others, ...given].filter(({ number }) => number !== null).map(effectOf))
  const untold = others.filter(
    field => effectOf(field) > 0 && (field.number === null || effectOf(field) >= LEAST_EFFECT * most),
  )
  return [
    ...given
      .filter(({ id }) => deciding.get(id)?.isSame === true)
      .map(({ name }) => say('lesson-edit-note-own', { field: name })),
    ...untold.map(({ name }) => say('lesson-edit-note-untold', { field: name })),
  ]
}

/** What seeds found doubtful, each with what to do. */
function doubtsOf(step: LessonStep, checks: readonly (StepCheck | undefined)[]): string[] {
  return DOUBTS.flatMap(doubt => {
    const seeds = checks.flatMap((check, index) => (check?.doubt === doubt ? [index] : []))
    const [first] = seeds
    if (first === undefined) return []
    const which =
      seeds.length === checks.length
        ? say('lesson-edit-note-seeds-all')
        : say('lesson-edit-note-seeds', { seeds: seeds.map(index => `${index + 1}`).join(', ') })
    const what = say(`lesson-edit-do-${doubt === 'trivial' || doubt === 'boundary' ? `${doubt}-${step.kind}` : doubt}`)
    const why = checks[first]?.why ?? ''
    return [[what, why, which].filter(text => text !== '').join(' ')]
  })
}
