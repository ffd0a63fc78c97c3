// What is done with whole shows.

import type { Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { writeStage } from '../../screen/link'
import { savedPage } from '../../screen/save-page'
import { getState } from '../../screen/store'
import { inventedFile } from './invented'
import { flush, getKeeping, keepLost, keptNow, list, noteChange, notify, putKeeping, tell } from './keeping'
import { isSafe, openKept, openNew, openNone } from './opening'
import { getProject } from './project'
import { readBytes, readText } from './read-file'
import { writeEntry, type Entry } from './shelf'
import { starterShow } from './starter'

async function begin(show: Show): Promise<void> {
  if (!(await isSafe(() => void begin(show)))) return
  openNew({ show, done: [], undone: [], changed: Date.now(), saved: null })
  tell(say('stage-opened', { name: show.name }))
}

export function beginEmpty(): Promise<void> {
  return begin(starterShow())
}

/** The invented show of the project. */
export async function beginExample(): Promise<void> {
  const { show } = await readText(inventedFile())
  if (show !== null) await begin(show)
}

export function duplicate(): Promise<void> {
  const { show } = getProject()
  return begin({ ...show, name: say('stage-copy-name', { name: show.name }) })
}

/** Opens a file beside the shows that are there. */
export async function importFile(file: File): Promise<void> {
  const { show, flaws, changed, text } = await readBytes(new Uint8Array(await file.arrayBuffer()))
  if (changed) await keepLost(text)
  const told = (word: string) => notify({ key: 'import', text: say(word, { file: file.name }), lines: flaws })
  if (show === null) return told('stage-import-refused')
  await begin(show)
  if (flaws.length > 0) told(changed ? 'stage-import-changed' : 'stage-import-flaws')
}

/** Deletes a show, which can be put back for a while. */
export async function remove(entry: Entry): Promise<void> {
  if (entry.id === getKeeping().id) await flush()
  await change({ ...entry, deleted: Date.now() })
  tell(say('stage-deleted', { name: nameOf(entry.name) }))
  if (entry.id !== getKeeping().id) return
  const [next] = getKeeping().entries.filter(({ deleted }) => deleted === null)
  if (next !== undefined && (await openKept(next.id))) return
  openNone()
}

export async function putBack(entry: Entry): Promise<void> {
  await change({ ...entry, deleted: null })
  tell(say('stage-put-back', { name: nameOf(entry.name) }))
}

async function change(entry: Entry): Promise<void> {
  try {
    await writeEntry(entry)
    await list()
  } catch {
    putKeeping({ trouble: 'refused' })
  }
}

export function nameOf(name: string): string {
  return name.trim() === '' ? say('stage-no-name') : name
}

/** The show as a file is written. */
export function fileText(): string {
  return `${JSON.stringify(getProject().show, null, 2)}\n`
}

export function showFile(ending: string): string {
  const name = getProject()
    .show.name.replace(/[\\/:*?"<>|\p{Cc}\p{Cf}]+/gu, '-')
    .replace(/^[.\s]+|[.\s]+$/g, '')
    .slice(0, 100)
  return `${name === '' ? 'show' : name}.${ending}`
}

/** The show is in a file of the reader's from now on. */
export function noteSaved(): void {
  putKeeping({ saved: { at: Date.now(), changes: 0 } })
  noteChange()
}

/** The whole page as one file that opens with this show. */
export async function pageWithShow(second: string): Promise<string> {
  const { settings, theme, working } = getState()
  await flush()
  const { id, base } = getKeeping()
  const show = { id, number: base?.number ?? 1, kept: keptNow() }
  return savedPage({ hash: writeStage(), settings, theme, working, show }, second)
}
