// The invented show of the project, in the words of its reader.

import example from '../../../../crate/examples/show.json'
import type { Show } from '../../../generated/contract'
import { say } from '../../base/words'

type List = 'gear' | 'power' | 'equipment' | 'links' | 'lines'

/** As its file would have it, to be read as any file is, which fills in what it leaves out. */
export function inventedFile(): string {
  const said = (list: List) => example[list].map(row => ({ ...row, ...textsOf(list, row) }))
  return JSON.stringify({
    ...example,
    ...{ name: say('stage-invented-name'), notes: say('stage-invented-notes') },
    ...{ gear: said('gear'), power: said('power'), equipment: said('equipment') },
    ...{ links: said('links'), lines: said('lines') },
  })
}

/** What of a row is prose, by the words of its name: `stage-invented-<list>-<id>`. */
function textsOf(list: List, row: { readonly id: string }): Readonly<Record<string, string>> {
  const name = `stage-invented-${list}-${row.id}`
  const notes = ['note', 'measured'].filter(field => field in row)
  return { name: say(name), ...Object.fromEntries(notes.map(field => [field, say(`${name}-${field}`)])) }
}

/** Its name says so, in the reader's language or in English, in which it may have been begun. */
export function isInvented({ name }: Show): boolean {
  const words = ['invented', ...say('stage-invented-words').split(', ')]
  return new RegExp(`\\b(${words.join('|')})\\b`, 'i').test(name)
}
