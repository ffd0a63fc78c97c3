// A version is proven once its start page has started in this browser. Until
// then the version before is kept, and takes its place where this one does not
// start.

import { own, readNote, writeNote } from './names'

const PROVEN = 'proven'
const FAILED = 'failed'
const TRIES = 'tries'
/** How often the page may be opened without telling that it started. */
const MOST_TRIES = 2
/** Somebody may just have left too soon, so it gets another chance later: after a day, in milliseconds. */
const PAUSE = 86_400_000

/** Whether this version may be opened; each time that counts does until it tells that it started. */
export async function mayOpen(counts: boolean): Promise<boolean> {
  if (await hasFailed()) return false
  if ((await readNote(PROVEN)) === own) return true
  const [tries = 0, since = 0] = ((await readNote(TRIES)) ?? '').split(' ').map(Number)
  if (tries >= MOST_TRIES && isRecent(since)) return false
  if (!counts) return true
  await writeNote(TRIES, `${tries < MOST_TRIES ? tries + 1 : 1} ${Date.now()}`)
  return true
}

/** One that failed may have done so by chance, so it gets another chance too. */
export async function hasFailed(): Promise<boolean> {
  const { version, since } = await failed()
  return version === own && isRecent(since)
}

export async function noteFailed(): Promise<void> {
  await writeNote(FAILED, `${Date.now()} ${own}`)
}

/** The version that failed last, and when. */
async function failed(): Promise<{ version: string; since: number }> {
  const [, since = '', version = ''] = /^(\d+) (.*)$/.exec((await readNote(FAILED)) ?? '') ?? []
  return { version, since: Number(since) }
}

/** A clock that was put back says nothing of how long ago something was. */
function isRecent(since: number): boolean {
  const passed = Date.now() - since
  return passed >= 0 && passed < PAUSE
}

export async function noteStarted(): Promise<void> {
  await writeNote(PROVEN, own)
  await writeNote(FAILED, '')
}

/** Another version that did start here and is still kept. */
export async function versionBefore(): Promise<string | null> {
  const proven = await provenVersion()
  return proven === own ? null : proven
}

/** A version begins without a past. */
export async function beginTrial(): Promise<void> {
  await writeNote(TRIES, '')
}

/** Whether nothing that is in use is known to start: then a whole new version is not to wait. */
export async function isStranded(): Promise<boolean> {
  const proven = await provenVersion()
  return proven === null || proven === (await failed()).version
}

/** The version that started last, if it is still kept. */
async function provenVersion(): Promise<string | null> {
  const proven = (await readNote(PROVEN)) ?? ''
  return proven !== '' && (await caches.has(proven)) ? proven : null
}
