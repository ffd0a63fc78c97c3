// From a row to its whole line, and what comes back from there.

import { say } from '../../base/words'
import { writeLink } from '../../screen/link'
import { seenRow, seeRow } from '../../screen/row'
import { translate } from '../../screen/translate'
import { getProject } from '../show/project'
import { titleOf } from './columns'
import { lineOf } from './deeds'
import { getList, putList, tell } from './list-state'
import { differing, makeChange, showSettings, textsOf, WHOLE_LINE, changeFor } from './whole-line'

/** The address of a row as a whole line. */
export function hashOf(id: string): string {
  const { show } = getProject()
  const values = Object.entries(textsOf(show, id))
  return writeLink({ text: '', calculator: WHOLE_LINE, values }, showSettings(show))
}

/** Remembers the row, for the bar on the whole line. */
export function leaveFor(id: string): void {
  const { show } = getProject()
  const line = lineOf(show, id)
  if (line === undefined) return
  const words = {
    of: say('stage-row-of', { row: titleOf(line), show: show.name || say('stage-row-show') }),
    back: say('stage-row-back'),
    put: say('stage-row-put'),
  }
  seeRow({ id, words, texts: null, settings: null })
}

/** Puts what was set on the whole line into its row, where the reader wanted that. */
export function comeBack(): void {
  const row = seenRow()
  const { show } = getProject()
  if (row === null || show.lines.length === 0) return
  seeRow(null)
  const line = lineOf(show, row.id)
  if (line !== undefined) {
    putList({ cursor: { line: row.id, column: getList().cursor?.column ?? 'name' }, open: true })
  }
  if (row.texts === null || row.settings === null) return
  if (line === undefined) {
    tell(say('stage-row-gone'))
    return
  }
  const settings = showSettings(show)
  const { texts } = translate(WHOLE_LINE, { texts: row.texts, want: null }, row.settings, settings)
  const changed = differing(textsOf(show, row.id), texts, settings)
  const count = Object.keys(changed).length
  if (count > 0) makeChange(show, row.id, changeFor(show, changed))
  tell(say(count > 0 ? 'stage-row-taken' : 'stage-row-same', { row: titleOf(line), count: `${count}` }))
}
