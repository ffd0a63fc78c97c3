// The rig of a step as it was dealt, and what the calculators say of it.

import type {
  Answer,
  DealtStep,
  Description,
  LessonRig,
  LessonStep,
  Plot,
  Question,
  Reading,
  Report,
  Settings,
  Step,
} from '../../generated/contract'
import { answer } from '../engine/engine'
import { descriptionOf } from '../screen/descriptions'
import { writePlace, fresh, type Texts } from '../screen/link'
import { DEFAULTS } from '../screen/settings'
import { translate } from '../screen/translate'
import type { LessonState } from './lesson-state'

export interface Bench {
  readonly description: Description | undefined
  readonly answer: Answer
}

const known = new WeakMap<DealtStep, { readonly settings: Settings; readonly bench: Bench }>()

/** The rig of a step, in the reader's words; nothing where its calculator is not known. */
export function benchOf(state: LessonState, at: number, settings: Settings): Bench | null {
  const [step, dealt] = [state.lesson.steps[at], state.dealt.steps[at]]
  if (step === undefined || dealt === undefined || dealt.calculator === '') return null
  const before = known.get(dealt)
  if (before?.settings === settings) return before.bench
  const bench = {
    description: descriptionOf(dealt.calculator, settings),
    answer: answer(questionOf(state, step, dealt, settings)),
  }
  known.set(dealt, { settings, bench })
  return bench
}

/** What the calculator of a step says with other texts in some fields. */
export function reportWith(state: LessonState, at: number, texts: Texts, settings: Settings): Report | null {
  const [step, dealt] = [state.lesson.steps[at], state.dealt.steps[at]]
  if (step === undefined || dealt === undefined || dealt.calculator === '') return null
  const values = { ...dealt.values, ...texts }
  return answer(questionOf(state, step, { ...dealt, values }, settings)).report
}

/** How the calculator comes to what it says of the rig of a step. */
export function workingOf(state: LessonState, at: number, settings: Settings): readonly Step[] {
  const [step, dealt] = [state.lesson.steps[at], state.dealt.steps[at]]
  if (step === undefined || dealt === undefined || dealt.calculator === '') return []
  return answer({ ...questionOf(state, step, dealt, settings), working: true }).report?.working ?? []
}

/** Whether a value that a lesson names reads the same as what is in a field already. */
export function isThere(
  of: Pick<LessonState, 'lesson' | 'dealt'>,
  at: number,
  field: string,
  value: string,
  settings: Settings,
): boolean {
  const [step, dealt] = [of.lesson.steps[at], of.dealt.steps[at]]
  if (step === undefined || dealt === undefined || dealt.calculator === '') return false
  const textOf = (values: Texts) =>
    answer({ ...questionOf(of, step, { ...dealt, values }, settings), brief: true }).fields[field]?.text
  const now = textOf(dealt.values)
  return now !== undefined && now === textOf({ ...dealt.values, [field]: value })
}

function questionOf(
  state: Pick<LessonState, 'lesson'>,
  step: LessonStep,
  dealt: DealtStep,
  settings: Settings,
): Question {
  const rig = rigOf(state, step)
  const { texts } = translate(dealt.calculator, { texts: dealt.values, want: null }, written(rig), settings)
  return {
    calculator: dealt.calculator,
    values: { ...texts },
    settings: { ...settings, mains: rig.mains },
    working: false,
    brief: false,
    backwards: null,
    cures: false,
    tolerances: null,
  }
}

function rigOf({ lesson }: Pick<LessonState, 'lesson'>, step: LessonStep): LessonRig {
  return step.rig ?? lesson.rig
}

/** The settings under which the texts of a rig are written. */
function written({ mains }: LessonRig): Settings {
  return { ...DEFAULTS, mains }
}

export function readingOf(bench: Bench | null, id: string): Reading | undefined {
  const { headline = [], further = [] } = bench?.answer.report ?? {}
  return [...headline, ...further].find(reading => reading.id === id)
}

/** What a reading that is asked for is called; nothing for decibels, whose names may tell a loss from a gain. */
export function askedName(bench: Bench | null, id: string): string {
  const reading = readingOf(bench, id)
  return reading === undefined || reading.unit === 'decibel' ? '' : reading.name
}

export function plotOf(bench: Bench | null, id: string): Plot | undefined {
  return bench?.answer.report?.plots.find(plot => plot.id === id)
}

/** What a field is called, and what stands in it. */
export function fieldOf(bench: Bench | null, id: string): { readonly name: string; readonly text: string } {
  const field = bench?.description?.fields.find(field => field.id === id)
  const text = bench?.answer.fields[id]?.text ?? ''
  return { name: field?.name ?? id, text: optionOf(bench, id, text) }
}

/** What an answer to a choice is called; of a number its text. */
export function optionOf(bench: Bench | null, id: string, value: string): string {
  const field = bench?.description?.fields.find(field => field.id === id)
  return field?.choice?.options.find(option => option.id === value)?.name ?? value
}

/** The address of the calculator with the rig of a step, with other texts in some fields. */
export function wholeOf(state: LessonState, at: number, texts: Texts): string | null {
  const [step, dealt] = [state.lesson.steps[at], state.dealt.steps[at]]
  if (step === undefined || dealt === undefined || dealt.calculator === '') return null
  return writePlace(fresh(dealt.calculator, { ...dealt.values, ...texts }), written(rigOf(state, step)))
}

/** An answer to a step as it was typed under some settings, as one would type it under others. */
export function translateWanted(
  { lesson, dealt }: Pick<LessonState, 'lesson' | 'dealt'>,
  at: number,
  text: string,
  from: Settings,
  to: Settings,
): string {
  const { calculator = '', values = {} } = dealt.steps[at] ?? {}
  if (text === '' || calculator === '' || JSON.stringify(from) === JSON.stringify(to)) return text
  const want = { reading: lesson.steps[at]?.reading ?? '', text, field: '' }
  return translate(calculator, { texts: values, want }, from, to).want?.text ?? text
}
