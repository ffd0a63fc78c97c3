// Keeps the show that is open on this device, soon after every change.

import { say } from '../../base/words'
import { isOneFile, noteBeginning } from '../../screen/saved-page'
import { dropLate, putLate } from './late'
import { edit, getProject, whenChanged, type Project, type Step } from './project'
import { readEntries, readLost, readSlots, writeLost, writeSlot, type Entry, type Lost } from './shelf'
import { isSame, slotOf, type Kept, type Saved, type Stamp } from './slot'
import { storeOf } from './store-of'

/** What the reader has to know, until it is put away. */
export interface Notice {
  readonly key: string
  readonly text: string
  /** What it is made up of, one line each. */
  readonly lines?: readonly string[]
  /** What can be done about it. */
  readonly act?: { readonly name: string; readonly run: () => void }
}

export interface Keeping {
  /** Whether the last show has been opened, or it is known that there is none. */
  readonly ready: boolean
  /** Whether there is no show yet, so that the reader chooses how to begin. */
  readonly first: boolean
  readonly id: string
  /** The state that the device keeps, as far as this tab knows. */
  readonly base: Stamp | null
  readonly saved: Saved | null
  readonly trouble: 'refused' | 'full' | null
  readonly entries: readonly Entry[]
  readonly lost: readonly Lost[]
  readonly notices: readonly Notice[]
  /** Whether the browser promised not to clear what it keeps; nothing until it was asked. */
  readonly persisted: boolean | null
  /** What was just done, for those who do not see it. */
  readonly told: string
}

/** So long nothing may change before it is written, in milliseconds. */
const PAUSE = 300
const CHANNEL = 'stageohm-stage'

const keeping = storeOf<Keeping>(() => ({
  ready: false,
  first: false,
  id: newId(),
  base: null,
  saved: null,
  trouble: null,
  entries: [],
  lost: [],
  notices: [],
  persisted: null,
  told: '',
}))
export const getKeeping = keeping.get
export const putKeeping = keeping.put
export const useKeeping = keeping.use

export function newId(): string {
  return [...crypto.getRandomValues(new Uint8Array(8))].map(byte => byte.toString(16).padStart(2, '0')).join('')
}

export function tell(told: string): void {
  // The same twice is said twice.
  putKeeping({ told: told === getKeeping().told ? `${told}\u00a0` : told })
}

export function notify(notice: Notice): void {
  dismiss(notice.key)
  putKeeping({ notices: [...getKeeping().notices, notice] })
}

export function dismiss(key: string): void {
  putKeeping({ notices: getKeeping().notices.filter(notice => notice.key !== key) })
}

/** Keeps a text that could not be read where the reader finds it; once under the same key. */
export async function keepLost(text: string, key = newId()): Promise<void> {
  const lost = { key, at: Date.now(), text }
  putKeeping({ lost: [...getKeeping().lost.filter(other => other.key !== key), lost] })
  await writeLost(lost).catch(() => undefined)
}

/** Reads again what the device has. */
export async function list(): Promise<void> {
  const [entries, lost] = [await readEntries(), await readLost()]
  const unkept = getKeeping().lost.filter(({ key }) => lost.every(other => other.key !== key))
  putKeeping({ entries, lost: [...lost, ...unkept] })
}

export function keptNow(): Kept {
  const { show, done, undone } = getProject()
  return { show, done, undone, changed: lastChange, saved: getKeeping().saved }
}

export function entryOf(id: string, { show, changed }: Kept): Entry {
  return { id, name: show.name, lines: show.lines.length, changed, deleted: null }
}

let changes = 0
let written = 0
let lastChange = Date.now()
let timer: ReturnType<typeof setTimeout> | undefined
let writing: Promise<void> | null = null

/** Whether something is not in the database yet. */
export function isDirty(): boolean {
  return written !== changes
}

/** What is open now is what the device keeps. */
export function noteOpened(changed: number): void {
  lastChange = changed
  written = changes
  last = getProject()
}

/** The reader lets go of what could not be written. */
export function letGo(): void {
  written = changes
  dropLate()
}

/** Something has to be written that is no change of the show. */
export function noteChange(): void {
  changes++
  clearTimeout(timer)
  timer = setTimeout(() => void flush(), PAUSE)
}

let last: Project | null = null

function changed(project: Project): void {
  lastChange = Date.now()
  const { saved, first } = getKeeping()
  // What is typed into one field is one change.
  if (saved !== null && !isMerged(project.done.at(-1), last?.done.at(-1), project.done.length === last?.done.length))
    putKeeping({ saved: { ...saved, changes: saved.changes + 1 } })
  if (first) putKeeping({ first: false })
  last = project
  noteChange()
  void askPersistence()
}

function isMerged(step: Step | undefined, before: Step | undefined, sameCount: boolean): boolean {
  return sameCount && step !== undefined && step.patches[0] === before?.patches[0]
}

/** Writes what is not written yet; answers once it is, or cannot be. */
export function flush(): Promise<void> {
  writing ??= write().finally(() => (writing = null))
  return writing
}

async function write(): Promise<void> {
  if (!isDirty()) return
  try {
    while (isDirty()) await writeOnce()
    await list()
  } catch (error) {
    const full = error instanceof DOMException && error.name === 'QuotaExceededError'
    putKeeping({ trouble: full ? 'full' : 'refused' })
    noteLate()
  }
}

async function writeOnce(): Promise<void> {
  clearTimeout(timer)
  const [now, { id, base }, kept] = [changes, getKeeping(), keptNow()]
  const slot = slotOf(id, (base?.number ?? 0) + 1, kept)
  if (!(await writeSlot(slot, entryOf(id, kept), base))) return goOnApart()
  written = now
  const { number, check } = slot
  putKeeping({ base: { number, check }, trouble: null })
  noteHere(id)
  if (!isDirty()) dropLate()
  channel?.postMessage({ id, number, check })
  if (isOneFile()) noteBeginning({ show: { id, number, kept } })
}

/** The device keeps another state than the one that this tab goes on from: both stay. */
function goOnApart(): void {
  const { id: other } = getKeeping()
  const { name } = getProject().show
  putKeeping({ id: newId(), base: null, saved: null })
  const apart = say('stage-apart-name', { name: name === '' ? say('stage-no-name') : name })
  edit(say('stage-apart-step'), draft => (draft.name = apart))
  dismiss('newer')
  notify({
    key: 'apart',
    text: say('stage-apart', { name: apart }),
    act: { name: say('stage-apart-open'), run: () => openOther(other) },
  })
}

/** Opens a show; the one who can sets this. */
let openOther: (id: string) => void = () => undefined

/** What has not come into the database, where the page may go away; answers whether it is safe. */
function noteLate(): boolean {
  if (!isDirty()) return true
  const { id, base } = getKeeping()
  return putLate({ slot: slotOf(id, (base?.number ?? 0) + 1, keptNow()), base })
}

let channel: BroadcastChannel | null = null
let begun = false

/** Begins to keep; `open` opens a show that the device has. */
export function beginKeeping(open: (id: string) => void): void {
  if (begun) return
  begun = true
  openOther = open
  whenChanged(changed)
  const leave = () => {
    noteLate()
    void flush()
  }
  addEventListener('pagehide', leave)
  document.addEventListener('visibilitychange', () => (document.hidden ? leave() : void lookForNewer()))
  addEventListener('beforeunload', event => {
    // Asked only where nothing can keep it.
    if (getKeeping().trouble !== null && !noteLate()) event.preventDefault()
  })
  try {
    channel = new BroadcastChannel(CHANNEL)
    channel.onmessage = () => void lookForNewer()
  } catch {
    // Seen when this tab is looked at again, or writes.
  }
}

/** Another tab may have written a newer state of this show. */
async function lookForNewer(): Promise<void> {
  try {
    const { id, base } = getKeeping()
    const [newest] = await readSlots(id)
    await list()
    if (newest === undefined || writing !== null || id !== getKeeping().id) return
    const now = getKeeping().base
    if (now === null || base === null || isSame(now, newest)) return
    notify({
      key: 'newer',
      text: say('stage-newer'),
      act: { name: say('stage-newer-open'), run: () => openOther(id) },
    })
  } catch {
    // Told when something is written.
  }
}

let askedToPersist = false

async function askPersistence(): Promise<void> {
  if (askedToPersist) return
  askedToPersist = true
  try {
    putKeeping({ persisted: await navigator.storage.persist() })
  } catch {
    putKeeping({ persisted: false })
  }
}

const HERE = 'stageohm.stage-open'

/** Notes which show is open, in this tab and on this device. */
export function noteHere(id: string): void {
  try {
    localStorage.setItem(HERE, id)
    sessionStorage.setItem(HERE, JSON.stringify([location.pathname, id]))
  } catch {
    // The one changed last opens then.
  }
}

/** The show that was open in this tab, and the last one of the device. */
export function wasHere(): { readonly tab: string | null; readonly device: string | null } {
  try {
    const [path, tab] = JSON.parse(sessionStorage.getItem(HERE) ?? '[]') as unknown[]
    const here = path === location.pathname && typeof tab === 'string' ? tab : null
    return { tab: here, device: localStorage.getItem(HERE) }
  } catch {
    return { tab: null, device: null }
  }
}
