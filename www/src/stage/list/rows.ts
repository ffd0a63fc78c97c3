// What of the list is on the screen, and what a deed is for.

import type { InputLine, Row } from '../../../generated/contract'
import { getProject } from '../show/project'
import { getList } from './list-state'
import { gradeOf, isMissing } from './verdict'

/** The lines that are shown: all, or those that miss something and the one with the cursor. */
export function shownLines(
  lines: readonly InputLine[],
  rows: ReadonlyMap<string, Row>,
  missing: boolean,
  cursor: string | undefined,
): readonly InputLine[] {
  return missing ? lines.filter(line => line.id === cursor || isMissing(line, rows.get(line.id))) : lines
}

/** The line to look at first, of those that need attention. */
export function worstOf(lines: readonly InputLine[], rows: ReadonlyMap<string, Row>): InputLine | undefined {
  const rank = ({ id }: InputLine) => {
    const { stop = false, figures = [], worst = null } = rows.get(id) ?? {}
    return stop ? -Infinity : (figures[worst ?? -1]?.share ?? 0)
  }
  const bad = lines.filter(line => ['misses', 'stop'].includes(gradeOf(line, rows.get(line.id))))
  return bad.reduce<InputLine | undefined>((a, b) => (a === undefined || rank(b) < rank(a) ? b : a), undefined)
}

export function shownIds(): string[] {
  const { show, rows } = getProject()
  const { missing, cursor } = getList()
  return shownLines(show.lines, rows, missing, cursor?.line).map(({ id }) => id)
}

/** The rows that a deed is for: those that are chosen, else the one with the cursor. */
export function targets(): string[] {
  const { show } = getProject()
  const { chosen, cursor } = getList()
  const is = (id: string) => (chosen.size > 0 ? chosen.has(id) : id === cursor?.line)
  return show.lines.map(({ id }) => id).filter(is)
}
