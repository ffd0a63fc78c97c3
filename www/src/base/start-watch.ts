// What is seen until the page has started, and where it does not. The words
// stand in the page itself, which says them by its styles alone where not even
// this script has come; so this speaks an older JavaScript than the rest.

import { LONGEST } from './limit'

/** Why the page has not started, as the page's own paragraphs name it. */
export type Why = 'slow' | 'file' | 'browser' | 'wasm' | 'frame' | 'error'

const SECTION = 'start'
const SLOW = 'slow'
/** When a start that hangs is told, in milliseconds; the styles say the same. */
const PATIENCE = 10_000
/** Kept for this tab: it has been opened anew once for this reason. */
const ONCE = 'stageohm.start-again'
const HEARD = 2000

/** Looks after the start from the first line of the page on. */
export function watchStart(): void {
  // A page saved as it was on the screen has started elsewhere, not here.
  delete document.documentElement.dataset['started']
  addEventListener('error', onError, true)
  document.addEventListener('readystatechange', prepare, { once: true })
  setTimeout(() => showStuck(SLOW), PATIENCE)
}

export function noteStarted(): void {
  document.documentElement.dataset['started'] = ''
  const place = section()
  // Without its styles it runs, and it still needs mending.
  if (place !== null && place.dataset['stuck'] !== 'file') place.hidden = true
  forgetOpenedAnew()
}

/** Says that the page has not started, and why; `detail` names the file. */
export function showStuck(why: Why, detail = ''): void {
  const place = section()
  if (place === null || isStarted()) return
  // What was first says more than what came of it; but for the clock, which knows nothing.
  const { stuck = SLOW } = place.dataset
  if (stuck !== SLOW) return
  place.removeAttribute('hidden')
  place.dataset['stuck'] = why
  giveReason(place, why)
  const name = place.querySelector('[data-why=file] code')
  if (name !== null) name.textContent = detail
  offerWaysOut(place, why)
  if (why !== SLOW && why !== 'wasm' && why !== 'frame') void openOther()
}

function giveReason(place: HTMLElement, why: Why): void {
  for (const part of place.querySelectorAll<HTMLElement>('[data-why]')) {
    part.hidden = part.dataset['why']?.split(' ').indexOf(why) === -1
  }
}

function isStarted(): boolean {
  return document.documentElement.dataset['started'] !== undefined
}

function section(): HTMLElement | null {
  return document.getElementById(SECTION)
}

function onError(event: Event): void {
  const { target } = event
  if (target instanceof HTMLScriptElement) showStuck('file', fileOf(target.src))
  else if (target instanceof HTMLLinkElement && target.rel === 'stylesheet') showStuck('file', fileOf(target.href))
  else if (!(event instanceof ErrorEvent)) return
  else if (!(event.error instanceof SyntaxError)) showStuck('error')
  // A script that is cut short reads like one in a newer language; but a browser
  // that knows the newest calls that the page makes knows its language too.
  else if (typeof Object.hasOwn === 'function') showStuck('file', fileOf(event.filename))
  else showStuck('browser')
}

export function fileOf(address: string): string {
  return address.replace(/[?#].*/, '').replace(/.*\//, '')
}

/** Once the page's own text is there, before any other script. */
function prepare(): void {
  const place = section()
  // Its last part; one that was cut off before it cannot say why.
  if (place === null || place.querySelector('pre') === null) {
    document.body.textContent = 'This page is incomplete. Reload it.'
    return
  }
  // A page saved as it was on the screen has it hidden.
  place.removeAttribute('hidden')
  if (typeof WebAssembly !== 'object') showStuck('wasm')
}

/** The link to take along, and a button that downloads everything again where that can help. */
function offerWaysOut(place: HTMLElement, why: Why): void {
  const link = place.querySelector('pre')
  // The link of a lesson may tell what its author hides.
  if (link !== null && location.hash.length > 1 && !/[?&]hide=/.test(location.hash)) {
    // No more than is ever read.
    link.textContent = location.href.slice(0, LONGEST)
    place.querySelector('[data-link]')?.removeAttribute('hidden')
  }
  const anew = place.querySelector('button')
  if (anew !== null && (why === 'file' || why === 'error') && location.protocol !== 'file:') {
    anew.hidden = false
    anew.onclick = () => void fetchAnew(anew)
  }
}

/** Undoes all that was said, in a copy of the page that is to be kept. */
export function unstick(place: HTMLElement): void {
  place.removeAttribute('hidden')
  delete place.dataset['stuck']
  giveReason(place, SLOW)
  for (const part of place.querySelectorAll<HTMLElement>('button, [data-link], [data-offline]')) part.hidden = true
  for (const text of place.querySelectorAll('pre, [data-why=file] code')) text.textContent = ''
}

/** Tells the keeper of the page that this version does not start, and opens what it has instead, once. */
async function openOther(): Promise<void> {
  const worker = keeper()
  if (worker === null || wasOpenedAnew()) return
  const { port1, port2 } = new MessageChannel()
  await new Promise<unknown>(heard => {
    port1.onmessage = heard
    setTimeout(heard, HEARD)
    worker.postMessage({ failed: ownFiles() }, [port2])
  })
  location.reload()
}

/** What keeps the page at hand; a frame of its own origin may not even ask. */
function keeper(): ServiceWorker | null {
  try {
    return navigator.serviceWorker.controller
  } catch {
    return null
  }
}

/** The files of this very page, by which its version is told from others. */
export function ownFiles(): string[] {
  const parts = document.querySelectorAll<HTMLScriptElement | HTMLLinkElement>('script[src], link[href]')
  return [...parts].map(part => ('src' in part ? part.src : part.href)).filter(isOurs)
}

/** Whether this tab has opened the page anew already; from now on it has. */
function wasOpenedAnew(): boolean {
  try {
    if (sessionStorage.getItem(ONCE) !== null) return true
    sessionStorage.setItem(ONCE, '')
    return false
  } catch {
    return true
  }
}

function forgetOpenedAnew(): void {
  try {
    sessionStorage.removeItem(ONCE)
  } catch {
    // A frame that keeps nothing.
  }
}

/** Fetches every file of the page again, past all that is kept, and only where the host answers. */
async function fetchAnew(button: HTMLButtonElement): Promise<void> {
  button.disabled = true
  try {
    const page = location.href.replace(/#.*/, '')
    await Promise.all([fetchWhole(page, true), ...ownFiles().map(file => fetchWhole(file, false))])
    await dropKept(page).catch(() => undefined)
    location.reload()
  } catch {
    // Nothing was thrown away.
    section()?.querySelector('[data-offline]')?.removeAttribute('hidden')
    button.disabled = false
  }
}

/** Past all that is kept; a file that does not come, or a log-in page in its place, ends it. */
async function fetchWhole(address: string, isPage: boolean): Promise<void> {
  const response = await fetch(address, { cache: 'reload' })
  const looksLikePage = /html/.test(response.headers.get('content-type') ?? '')
  if (!response.ok || (looksLikePage && !isPage)) throw new Error(`${address}: ${response.status}`)
  await response.blob()
}

/** What keeps the page at hand goes, with all that it kept; a frame of its own origin has none. */
async function dropKept(page: string): Promise<void> {
  const all = await navigator.serviceWorker.getRegistrations()
  const own = all.filter(({ scope }) => page.startsWith(scope))
  await Promise.all(own.map(worker => worker.unregister()))
  const kept = (await caches.keys()).filter(name => own.some(({ scope }) => name.startsWith(`stageohm ${scope} `)))
  await Promise.all(kept.map(name => caches.delete(name)))
}

function isOurs(address: string): boolean {
  return address.startsWith(`${location.origin}/`)
}
