// What of the list is on the screen, and what a deed is for.

import type { InputLine, Row } from '../../../generated/contract'
import { getProject } from '../show/project'
import { getList } from './list-state'
import { isMissing } from './verdict'

/** The lines that are shown: all, or those that miss something and the one with the cursor. */
export function shownLines(
  lines: readonly InputLine[],
  rows: ReadonlyMap<string, Row>,
  missing: boolean,
  cursor: string | undefined,
): readonly InputLine[] {
  return missing ? lines.filter(({ id }) => id === cursor || isMissing(rows.get(id))) : lines
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
