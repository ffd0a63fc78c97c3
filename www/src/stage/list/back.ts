// From a row to its whole line, and what comes back from there.

import type { Figure } from '../../../generated/contract'
import { say } from '../../base/words'
import { writeFaultOf } from '../../screen/fault-line'
import { writeLink } from '../../screen/link'
import { seenRow, seeRow } from '../../screen/row'
import { getState } from '../../screen/store'
import { translate } from '../../screen/translate'
import { distance } from '../show/amount'
import { getProject } from '../show/project'
import { titleOf } from './columns'
import { lineOf } from './deeds'
import { getList, putList, tell } from './list-state'
import { nameOf } from './verdict'
import { differing, makeChange, showSettings, textsOf, WHOLE_LINE, changeFor } from './whole-line'

/** Hum that differs by less is the same, dB. */
const HEARD = 0.5

/** The address of a row as a whole line. */
export function hashOf(id: string): string {
  const { show } = getProject()
  const values = Object.entries(textsOf(show, id))
  return writeLink({ text: '', calculator: WHOLE_LINE, values }, showSettings(show))
}

/** The address of the finder of faults with a row in it. */
export function faultHashOf(id: string): string {
  const { show } = getProject()
  return writeFaultOf(textsOf(show, id), showSettings(show))
}

/** Remembers the row, for the bar on the whole line. */
export function leaveFor(id: string): void {
  const { show } = getProject()
  const line = lineOf(show, id)
  if (line === undefined) return
  const words = {
    of: say('stage-row-of', { row: titleOf(line), show: show.name || say('stage-row-show') }),
    alone: aloneText(id),
    back: say('stage-row-back'),
    put: say('stage-row-put'),
  }
  seeRow({ id, words, texts: null, settings: null })
}

/** Where the line by itself hums otherwise than among all others, what the list has. */
function aloneText(id: string): string {
  const { settings } = getState()
  const differs = ({ alone, value }: Figure) => alone !== null && Math.abs(alone - value) > HEARD
  const hum = getProject().rows.get(id)?.figures.find(differs)
  if (hum === undefined) return ''
  return say('stage-row-alone', { name: nameOf(hum), value: distance(hum.value, settings, hum.limit) })
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
