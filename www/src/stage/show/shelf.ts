// The shows that this device keeps, in the browser's database: two slots for each,
// written in turn, and what could not be read.

import { openDB, type DBSchema, type IDBPDatabase } from 'idb'
import { isSame, isWhole, type Slot, type Stamp } from './slot'

/** What the list of shows tells of one without opening it. */
export interface Entry {
  readonly id: string
  readonly name: string
  readonly lines: number
  readonly changed: number
  /** When it was deleted; nothing where it was not. */
  readonly deleted: number | null
}

/** A text that could not be read. */
export interface Lost {
  readonly key: string
  readonly at: number
  readonly text: string
}

interface Shelf extends DBSchema {
  shows: { key: string; value: Entry }
  slots: { key: [string, number]; value: Slot }
  lost: { key: string; value: Lost }
}

const NAME = 'stageohm-stage'
/** A deleted show can be put back for so many milliseconds: 30 days. */
const PUT_BACK = 30 * 24 * 60 * 60 * 1000

let opened: Promise<IDBPDatabase<Shelf>> | null = null

function shelf(): Promise<IDBPDatabase<Shelf>> {
  opened ??= openDB<Shelf>(NAME, 1, {
    upgrade(database) {
      database.createObjectStore('shows', { keyPath: 'id' })
      database.createObjectStore('slots', { keyPath: ['id', 'place'] })
      database.createObjectStore('lost', { keyPath: 'key' })
    },
    // The next use opens it again.
    terminated: () => (opened = null),
  }).catch((error: unknown) => {
    opened = null
    throw error
  })
  return opened
}

/** All shows, the one changed last first; what was deleted long ago goes now. */
export async function readEntries(): Promise<Entry[]> {
  const all = await (await shelf()).getAll('shows')
  const gone = all.filter(({ deleted }) => deleted !== null && deleted < Date.now() - PUT_BACK)
  for (const { id } of gone) await dropShow(id)
  return all.filter(entry => !gone.includes(entry)).sort((a, b) => b.changed - a.changed)
}

async function dropShow(id: string): Promise<void> {
  const work = (await shelf()).transaction(['shows', 'slots'], 'readwrite')
  await Promise.all([work.objectStore('shows').delete(id), work.objectStore('slots').delete(slotsOf(id)), work.done])
}

/** The slots of a show, the newest first. */
export async function readSlots(id: string): Promise<Slot[]> {
  return newestFirst(await (await shelf()).getAll('slots', slotsOf(id)))
}

function slotsOf(id: string): IDBKeyRange {
  return IDBKeyRange.bound([id, 0], [id, 1])
}

function newestFirst(slots: readonly Slot[]): Slot[] {
  return [...slots].sort((a, b) => b.number - a.number)
}

/**
 * Writes the next state of a show where `base` is the one that is kept; answers whether
 * it is. Reading and writing are one transaction, so no other tab comes between.
 */
export async function writeSlot(slot: Slot, entry: Entry, base: Stamp | null): Promise<boolean> {
  const work = (await shelf()).transaction(['shows', 'slots'], 'readwrite')
  const slots = work.objectStore('slots')
  const [newest] = newestFirst(await slots.getAll(slotsOf(slot.id)))
  const next = newest === undefined || isSame(newest, slot) || (base !== null && isSame(newest, base))
  const writes = next ? [slots.put(slot), work.objectStore('shows').put(entry)] : []
  await Promise.all([...writes, work.done])
  return next
}

export async function writeEntry(entry: Entry): Promise<void> {
  await (await shelf()).put('shows', entry)
}

/** Lays a slot that is damaged apart from those that are written in turn. */
export async function layAside(slot: Slot): Promise<void> {
  const text = typeof slot.text === 'string' ? slot.text : JSON.stringify(slot)
  const work = (await shelf()).transaction(['slots', 'lost'], 'readwrite')
  await Promise.all([
    work.objectStore('lost').put({ key: `${slot.id} ${slot.number}`, at: Date.now(), text }),
    work.objectStore('slots').delete([slot.id, slot.place]),
    work.done,
  ])
}

export async function writeLost(lost: Lost): Promise<void> {
  await (await shelf()).put('lost', lost)
}

export async function readLost(): Promise<Lost[]> {
  return (await shelf()).getAll('lost')
}

export async function dropLost(key: string): Promise<void> {
  await (await shelf()).delete('lost', key)
}

/** The newest state of a show that is as it was written, and the newer ones that are not. */
export function newestWhole(slots: readonly Slot[]): {
  readonly whole: Slot | null
  readonly damaged: readonly Slot[]
} {
  const place = slots.findIndex(isWhole)
  return place < 0 ? { whole: null, damaged: slots } : { whole: slots[place] ?? null, damaged: slots.slice(0, place) }
}
