// What is seen until the page has started, and where it does not. The words
// stand in the page itself, which says them by its styles alone where not even
// this script has come; so this speaks an older JavaScript than the rest.

import { isHiding, LONGEST } from './limit'
import { PATIENCE } from './patience'

/** Why the page has not started, as the page's own paragraphs name it. */
export type Why = 'slow' | 'styles' | 'file' | 'browser' | 'wasm' | 'frame' | 'error'

const SECTION = 'start'
const SLOW = 'slow'
const STYLES = 'styles'
/** Kept for this tab: it has been opened anew once for this reason, and whether the version before came in its place. */
const ONCE = 'stageohm.start-again'
const HEARD = 2000

/** Looks after the start from the first line of the page on. */
export function watchStart(): void {
  // A page saved as it was on the screen has started elsewhere, not here.
  delete document.documentElement.dataset['started']
  addEventListener('error', onError, true)
  document.addEventListener('readystatechange', prepare, { once: true })
  // Counted from where the page began.
  setTimeout(() => showStuck(SLOW), PATIENCE - performance.now())
  window.earlyFailures?.forEach(onError)
}

export function noteStarted(): void {
  checkStyles()
  document.documentElement.dataset['started'] = ''
  const place = section()
  if (place !== null && place.dataset['stuck'] !== STYLES) place.hidden = true
}

/** The styles end with a mark; those that were cut short leave it out. */
function checkStyles(): void {
  const link = document.querySelector<HTMLLinkElement>('link[rel=stylesheet]')
  const isOnItsWay = link !== null && link.sheet === null
  const mark = getComputedStyle(document.documentElement).getPropertyValue('--styles').trim()
  if (!isOnItsWay && mark !== 'whole') showStuck(STYLES, fileOf(link?.href ?? location.pathname))
}

/** Says that the page has not started, and why; `detail` names the file. */
export function showStuck(why: Why, detail = ''): void {
  const place = section()
  if (place === null || isStarted()) return
  // What was first says more than what came of it; but for the clock, which knows
  // nothing, and for styles, without which it may start.
  const { stuck = SLOW } = place.dataset
  if (stuck !== SLOW && stuck !== STYLES) return
  place.removeAttribute('hidden')
  place.dataset['stuck'] = why
  giveReason(place, why)
  const name = place.querySelector(`[data-why=${why}] code`)
  if (name !== null && detail !== '') name.textContent = detail
  offerWaysOut(place, why)
  if (why === 'file' || why === 'browser' || why === 'error') void openOther()
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
  else if (target instanceof HTMLLinkElement && target.rel === 'stylesheet') showStuck(STYLES, fileOf(target.href))
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
  if (isStarted()) return
  const place = section()
  // Its last part; one that was cut off before it cannot say why.
  if (place === null || place.querySelector('pre') === null) {
    document.body.textContent = 'This page is incomplete. Reload it, or download it again.'
    return
  }
  // A page saved as it was on the screen has it hidden.
  place.removeAttribute('hidden')
  if (typeof WebAssembly !== 'object') showStuck('wasm')
  // What comes last tells that all came.
  if (document.getElementById('end') === null) showStuck('file', fileOf(location.pathname) || 'index.html')
}

/** The link to take along, and a button that downloads everything again where that can help. */
function offerWaysOut(place: HTMLElement, why: Why): void {
  const link = place.querySelector('pre')
  // The link of a lesson may tell what its author hides.
  if (link !== null && location.hash.length > 1 && !isHiding(location.hash)) {
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
  for (const part of place.querySelectorAll<HTMLElement>('button, [data-link], [data-offline], [data-gone]')) {
    part.hidden = true
  }
  for (const text of place.querySelectorAll('pre, code'))
    if (text.closest('[data-why=frame]') === null) text.textContent = ''
}

/** Tells the keeper of the page that this version does not start, and opens what it has instead, once. */
async function openOther(): Promise<void> {
  const worker = keeper()
  if (worker === null || wasOpenedAnew()) return
  const { port1, port2 } = new MessageChannel()
  const before = await new Promise<boolean>(heard => {
    port1.onmessage = ({ data }) => heard(data === 'before')
    setTimeout(heard, HEARD, false)
    worker.postMessage({ failed: ownFiles() }, [port2])
  })
  if (before) sessionStorage.setItem(ONCE, 'before')
  location.reload()
}

/** Whether this version stands in for a newer one that did not start; told once. */
export function standsIn(): boolean {
  try {
    const why = sessionStorage.getItem(ONCE)
    sessionStorage.removeItem(ONCE)
    return why === 'before'
  } catch {
    // A frame that keeps nothing.
    return false
  }
}

/** What keeps the page at hand; a frame of its own origin may not even ask. */
export function keeper(): ServiceWorker | null {
  try {
    return navigator.serviceWorker.controller
  } catch {
    return null
  }
}

/** The files of this very page, by which its version is told from others; those of a first visit are not kept. */
export function ownFiles(page = document): string[] {
  const parts = [...page.querySelectorAll('script[src], link[href]:not([id^="first-"])')]
  // A page that is only read has no address of its own.
  const address = (part: Element) => new URL(part.getAttribute('src') ?? part.getAttribute('href') ?? '', location.href)
  return parts.map(part => address(part).href).filter(isOurs)
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

/** Fetches every file of the page again, past all that is kept, and only where the host has them all. */
async function fetchAnew(button: HTMLButtonElement): Promise<void> {
  const [offline, gone] = ['[data-offline]', '[data-gone]'].map(part => section()?.querySelector<HTMLElement>(part))
  for (const said of [offline, gone]) said?.setAttribute('hidden', '')
  button.disabled = true
  try {
    const address = location.href.replace(/#.*/, '')
    const page = new DOMParser().parseFromString(await fetchWhole(address, true), 'text/html')
    // Those that the page names now, which may be others.
    await Promise.all(ownFiles(page).map(file => fetchWhole(file, false)))
    await dropKept(address).catch(() => undefined)
    location.reload()
  } catch (error) {
    // Nothing was thrown away.
    const missing = error instanceof Missing ? fileOf(error.message) : null
    if (missing !== null) gone?.querySelector('code')?.replaceChildren(missing || 'index.html')
    ;(missing === null ? offline : gone)?.removeAttribute('hidden')
    button.disabled = false
  }
}

/** The host answers, and has not got it. */
class Missing extends Error {}

/** Past all that is kept; a file that does not come, or a log-in page in its place, ends it. */
async function fetchWhole(address: string, isPage: boolean): Promise<string> {
  const response = await fetch(address, { cache: 'reload' })
  const looksLikePage = /html/.test(response.headers.get('content-type') ?? '')
  if (response.status === 404) throw new Missing(address)
  if (!response.ok || (looksLikePage && !isPage)) throw new Error(`${address}: ${response.status}`)
  return response.text()
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
