// What the native engine answers, to hold the page against.

import { execFileSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import type {
  Answer,
  Dealt,
  Description,
  Entry,
  FaultAnswer,
  FaultQuestion,
  Marked,
  Plot,
  Question,
  Reading,
  StepCheck,
  Tolerances,
} from '../../www/generated/contract'

const root = fileURLToPath(new URL('../..', import.meta.url))

function run(example: string, input: string, ...flags: string[]): string {
  const cargo = ['run', '--quiet', '--locked', '--package', 'stageohm', '--example', example, '--', ...flags]
  return execFileSync('cargo', cargo, { cwd: root, input, encoding: 'utf8', maxBuffer: 2 ** 26 })
}

function solve(input: string, ...flags: string[]): string {
  return run('solve', input, ...flags)
}

/** Where a fault lies, as far as it is known. */
export function fault(question: Partial<FaultQuestion>): FaultAnswer {
  return JSON.parse(run('fault', JSON.stringify(question))) as FaultAnswer
}

let described: Description[] | undefined

/** Every calculator there is: a new one is tested without a line here. */
export function descriptions(): Description[] {
  described ??= JSON.parse(solve('', '--list')) as Description[]
  return described
}

type More = Partial<Pick<Question, 'working' | 'backwards'>> & {
  settings?: Partial<Question['settings']>
  tolerances?: Partial<Tolerances>
}

export function answer(calculator: string, values: Record<string, Entry> = {}, more: More = {}): Answer {
  return JSON.parse(solve(JSON.stringify({ calculator, values, ...more }))) as Answer
}

export interface Change {
  readonly field: string
  readonly text: string
  readonly before: Answer
  readonly after: Answer
}

/**
 * A number field of the calculator, and a text for it as a person would type it,
 * which changes the answer and, where there are plots, a curve of the first.
 */
export function change({ id, fields }: Description): Change {
  const before = answer(id)
  const shown = fields.filter(field => !field.detail && before.fields[field.id]?.active)
  for (const { id: field, number } of shown) {
    if (number === null) continue
    for (const text of texts(id, field, number)) {
      const after = answer(id, { [field]: text })
      if (after.report !== null && isOther(before, after)) return { field, text, before, after }
    }
  }
  throw new Error(`no number field of ${id} changes its answer`)
}

/** Values of the trade, then the end of the usual range, and for a level one beside the default. */
function texts(id: string, field: string, number: NonNullable<Description['fields'][0]['number']>): string[] {
  const known = number.marks.map(({ text }) => text).filter(text => text !== number.default_text)
  return [...known, answer(id, { [field]: number.usual_to }).fields[field]?.text ?? '', '-12'].map(typed)
}

/** A printed text as a keyboard has it. */
export function typed(text: string): string {
  return text.replaceAll('\u00a0', ' ').replaceAll('−', '-')
}

function isOther(before: Answer, after: Answer): boolean {
  const read = ({ report }: Answer) => JSON.stringify(report?.headline.map(({ text }) => text))
  const [was, is] = [before, after].map(({ report }) => report?.plots[0])
  return read(before) !== read(after) && (was === undefined || is === undefined || isMoved(was.traces, is))
}

/** Whether curves moved by what an eye sees: one percent of the height of the plot. */
export function isMoved(was: Plot['traces'], { traces, y }: Plot): boolean {
  const height = (value: number | undefined) => (y.log ? Math.log(value ?? NaN) : (value ?? NaN))
  const visible = Math.abs(height(y.to) - height(y.from)) / 100
  return traces.some((trace, rank) =>
    trace.y.some((value, index) => Math.abs(height(value) - height(was[rank]?.y[index])) > visible),
  )
}

/** The curves that are the answer, not there to compare with. */
export function curvesOf({ traces }: Plot): Plot['traces'] {
  return traces.filter(({ reference }) => !reference)
}

/** The readings of an answer that has a report. */
export function headline({ report }: Answer): Reading[] {
  if (report === null) throw new Error('the answer has no report')
  return report.headline
}

/** What a lesson deals, and what responses to it are worth. */
export function lesson(given: { lesson: unknown; seed: number; responses?: unknown[] }): LessonAnswer {
  return JSON.parse(run('lesson', JSON.stringify(given))) as LessonAnswer
}

interface LessonAnswer {
  readonly dealt: Dealt
  readonly steps: readonly StepCheck[]
  readonly marked: readonly (Marked | null)[]
}
