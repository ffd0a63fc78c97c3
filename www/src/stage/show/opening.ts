// Which show the stage opens with, and how one is opened that the device keeps.

import { say } from '../../base/words'
import { isRecord, isText } from '../../base/shape'
import { beginning } from '../../screen/saved-page'
import {
  beginKeeping,
  entryOf,
  flush,
  getKeeping,
  isDirty,
  keepLost,
  letGo,
  list,
  newId,
  noteChange,
  noteHere,
  noteOpened,
  notify,
  putKeeping,
  tell,
  wasHere,
} from './keeping'
import { allLate, dropLate } from './late'
import { emptyShow, getProject, openShow } from './project'
import { readText } from './read-file'
import { layAside, newestWhole, readSlots, writeEntry, writeSlot } from './shelf'
import { isKept, isSame, keptOf, slotOf, type Kept, type Slot, type Stamp } from './slot'
import { when } from './when'

let opening: Promise<void> | null = null

/** Opens the show that was open last; once, since it stays open while another screen is looked at. */
export function openLastShow(): Promise<void> {
  opening ??= openFirst()
  return opening
}

async function openFirst(): Promise<void> {
  const untouched = getProject().show
  beginKeeping(id => void openKept(id))
  const late = await takeLate()
  try {
    await list()
  } catch {
    putKeeping({ trouble: 'refused' })
  }
  // What was begun meanwhile is a show of its own.
  if (getProject().show === untouched && !(await openOneOf(late))) putKeeping({ first: true })
  putKeeping({ ready: true })
}

async function openOneOf(late: Slot | null): Promise<boolean> {
  const { tab, device } = wasHere()
  const block = await readBlock()
  if (block !== null) return openBlock(block, tab)
  const { entries, trouble } = getKeeping()
  const kept = late === null ? null : keptOf(late)
  if (trouble !== null && late !== null && kept !== null) {
    show(late.id, null, kept)
    noteChange()
    return true
  }
  const open = entries.filter(({ deleted }) => deleted === null).map(({ id }) => id)
  const wanted = [tab, device].filter(id => id !== null && open.includes(id))
  for (const id of new Set([...wanted, ...open])) if (id !== null && (await openSlots(id))) return true
  return false
}

function show(id: string, base: Stamp | null, kept: Kept): void {
  putKeeping({ id, base, saved: kept.saved, first: false, notices: withoutNewer() })
  openShow(kept.show, kept.done, kept.undone)
  noteOpened(kept.changed)
}

function withoutNewer() {
  return getKeeping().notices.filter(({ key }) => key !== 'newer' && key !== 'apart' && key !== 'file')
}

/** Takes over what pages left that went away; answers the newest where the device keeps nothing. */
async function takeLate(): Promise<Slot | null> {
  let newest: { readonly slot: Slot; readonly kept: Kept } | null = null
  for (const { key, late, text } of allLate()) {
    const kept = late === null ? null : keptOf(late.slot)
    if (late === null || kept === null) {
      await keepLost(text)
      dropLate(key)
      continue
    }
    try {
      await takeOver(late.slot, kept, late.base)
      dropLate(key)
    } catch {
      if (newest === null || kept.changed > newest.kept.changed) newest = { slot: late.slot, kept }
    }
  }
  return newest?.slot ?? null
}

async function takeOver(slot: Slot, kept: Kept, base: Stamp | null): Promise<void> {
  const before = await readSlots(slot.id)
  if (before.some(one => isSame(one, slot))) return
  if (await writeSlot(slot, entryOf(slot.id, kept), base)) return
  const name = say('stage-apart-name', { name: kept.show.name })
  const apart = { ...kept, show: { ...kept.show, name } }
  const id = newId()
  await writeSlot(slotOf(id, 1, apart), entryOf(id, apart), null)
  notify({
    key: `apart ${id}`,
    text: say('stage-late-apart', { name }),
    act: { name: say('stage-open-it'), run: () => void openKept(id) },
  })
}

/** Opens a show that the device keeps, once the one that is open is safe; answers whether it could. */
export async function openKept(id: string): Promise<boolean> {
  if (!(await isSafe(() => void openKept(id)))) return false
  const opened = await openSlots(id)
  if (opened) tell(say('stage-opened', { name: getProject().show.name }))
  return opened
}

/** Whether another show may take the place of the one that is open; if not, the reader is told. */
export async function isSafe(again: () => void): Promise<boolean> {
  await flush()
  const { saved } = getKeeping()
  if (!isDirty() || saved?.changes === 0) return true
  notify({
    key: 'unsafe',
    text: say('stage-unsafe'),
    act: {
      name: say('stage-unsafe-again'),
      run: () => {
        letGo()
        again()
      },
    },
  })
  return false
}

async function openSlots(id: string): Promise<boolean> {
  const { whole, damaged } = newestWhole(await readSlots(id).catch(() => []))
  for (const slot of damaged) await layAside(slot)
  if (damaged.length > 0) await list()
  const kept = keptOf(whole)
  const [newest = whole] = damaged
  if (whole === null || kept === null) return newest !== null && openStrange(id, whole ?? newest)
  show(id, whole, kept)
  if (damaged.length > 0) notify({ key: 'damaged', text: say('stage-slot-damaged', { when: when(kept.changed) }) })
  noteHere(id)
  return true
}

/** Damaged, or of another version: what can be read of it is opened as another show. */
async function openStrange(id: string, slot: Slot): Promise<boolean> {
  const text = showIn(slot.text)
  const { show: read, flaws } = await readText(text)
  const entry = getKeeping().entries.find(entry => entry.id === id)
  await keepLost(text, `${id} ${slot.number}`)
  notify({ key: 'damaged', text: say('stage-show-damaged', { name: entry?.name ?? '' }), lines: flaws })
  if (read === null) return false
  openNew({ show: read, done: [], undone: [], changed: Date.now(), saved: null })
  if (entry !== undefined) await writeEntry({ ...entry, deleted: Date.now() })
  return true
}

function showIn(text: unknown): string {
  try {
    const kept: unknown = JSON.parse(String(text))
    return isRecord(kept) ? JSON.stringify(kept['show']) : String(text)
  } catch {
    // Cut short, it may still have the show, which stands first.
    return String(text).replace(/^\{"show":/, '')
  }
}

/** Opens a show that the device does not keep yet, and keeps it. */
export function openNew(kept: Kept): void {
  show(newId(), null, kept)
  noteChange()
  void flush()
}

/** Nothing is open: the reader chooses how to begin. */
export function openNone(): void {
  putKeeping({ id: newId(), base: null, saved: null, first: true, notices: withoutNewer() })
  openShow(emptyShow())
  noteOpened(Date.now())
}

interface Block {
  readonly id: string
  readonly number: number
  readonly kept: Kept
}

/** The show that a saved page begins with. */
async function readBlock(): Promise<Block | null> {
  const { show: block } = beginning()
  if (block === undefined) return null
  if (isRecord(block) && isText(block['id']) && typeof block['number'] === 'number' && isKept(block['kept']))
    return block as unknown as Block
  const text = JSON.stringify(isRecord(block) && isRecord(block['kept']) ? block['kept']['show'] : block)
  const { show: read, flaws } = await readText(text)
  await keepLost(text)
  notify({ key: 'damaged', text: say('stage-block-damaged'), lines: flaws })
  return read === null
    ? null
    : { id: newId(), number: 0, kept: { show: read, done: [], undone: [], changed: 0, saved: null } }
}

/** Opens the show of a saved page. Where the device has another state of it, both are told of. */
async function openBlock({ id, number, kept }: Block, tab: string | null): Promise<boolean> {
  const own = slotOf(id, number, kept)
  const { whole } = newestWhole(await readSlots(id).catch(() => []))
  const other = keptOf(whole)
  if (whole !== null && isSame(whole, own)) return openSlots(id)
  // This tab was at work on the other one: it was reloaded.
  const goOn = tab === id && other !== null
  if (goOn) await openSlots(id)
  else show(id, own, kept)
  if (other === null) return true
  const act = goOn
    ? {
        name: say('stage-file-open'),
        run: () => void isSafe(() => undefined).then(safe => safe && show(id, own, kept)),
      }
    : { name: say('stage-device-open'), run: () => void openKept(id) }
  const [newer, older] = other.changed > kept.changed ? [other, kept] : [kept, other]
  const times = { newer: when(newer.changed), older: when(older.changed) }
  const words = `stage-${goOn ? 'file' : 'device'}-${(newer === other) === goOn ? 'older' : 'newer'}`
  notify({ key: 'file', text: say(words, times), act })
  return true
}
