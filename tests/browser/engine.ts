// What the native engine answers, to hold the page against.

import { execFileSync } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import type { Answer, Description, Entry, Tolerances } from '../../www/generated/contract'

const root = fileURLToPath(new URL('../..', import.meta.url))

function solve(input: string, ...flags: string[]): string {
  const cargo = ['run', '--quiet', '--locked', '--package', 'stageohm', '--example', 'solve', '--', ...flags]
  return execFileSync('cargo', cargo, { cwd: root, input, encoding: 'utf8', maxBuffer: 2 ** 26 })
}

export function descriptions(): Description[] {
  return JSON.parse(solve('', '--list')) as Description[]
}

export function answer(calculator: string, values: Record<string, Entry>, tolerances?: Partial<Tolerances>): Answer {
  return JSON.parse(solve(JSON.stringify({ calculator, values, tolerances }))) as Answer
}

/** A number field and a text for it that changes the answer. */
export function change(description: Description): { field: string; text: string; answer: Answer } {
  const before = answer(description.id, {}).report
  for (const { id, number } of description.fields) {
    if (number === null) continue
    const { least, most, usual_from, usual_to, marks, default_text } = number
    const inside = usual_from + 0.37 * (usual_to - usual_from)
    const known = marks.find(({ text }) => text !== default_text)?.text
    const text =
      usual_to > usual_from ? (known ?? answer(description.id, { [id]: inside }).fields[id]?.text) : '-10 dBV'
    if (text === undefined || inside < least || inside > most) continue
    const changed = answer(description.id, { [id]: text })
    const differs = (part: 'headline' | 'plots') =>
      JSON.stringify(changed.report?.[part]) !== JSON.stringify(before?.[part])
    // Curves too, so that the picture can be seen to follow.
    if (changed.report !== null && differs('headline') && (before?.plots.length === 0 || differs('plots'))) {
      return { field: id, text: text.replace(/\u00a0/g, ' '), answer: changed }
    }
  }
  throw new Error(`no number field of ${description.id} changes its answer`)
}
