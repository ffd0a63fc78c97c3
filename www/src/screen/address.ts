// The address bar follows the screen with each frame, so that a reload loses
// nothing. But browsers refuse when it is written too often, some from 100 times
// in half a minute: after a burst, as a slider makes it, it lags behind a little.
// What a reload cuts off then is handed to the page that it opens.

import { isText } from '../base/kept'
import { withoutLanguage } from '../base/language'
import { isLong } from '../base/limit'
import { noteBeginning } from './saved-page'

/** How far apart writes may be for ever, in milliseconds. */
const APART = 400
/** How many may come at once. */
const BURST = 20
/** Kept for this tab, from a page that is left to the next: the address that a reload opens, and what it should have become. */
const LATE = 'stageohm.late'

let written = location.hash
/** Gives the address that waits to be written. */
let waiting: (() => string) | null = null
let toldRefused: ((url: string) => void) | null = null
let frame = 0
let timer: ReturnType<typeof setTimeout> | undefined
/** When the writes so far would have ended, had they come evenly. */
let even = 0

/** The whole address of a screen, from that which is written behind its `#`. */
export function whole(hash: string): string {
  return withoutLanguage(location.href.replace(/#.*/, '')) + hash
}

/** What was written or opened last; nothing where that is too long to be read. */
export function last(): string {
  return isLong(written) ? '' : written
}

/** Gives the screen that a saved page begins with its address. */
export function begin(hash: string): void {
  // What is no address of a screen would lead elsewhere.
  if (isLong(hash) || !hash.startsWith('#')) return
  written = hash
  change('replaceState', hash)
}

/** Goes on at the address that a reload came too early for. */
export function resume(): void {
  try {
    const [before, become] = late()
    sessionStorage.removeItem(LATE)
    const [way] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[]
    // Whoever opens the address anew, or comes back to it, wants it as it is.
    if (way?.type === 'reload' && before === location.href && isText(become)) begin(become)
  } catch {
    // Refused, or no text of ours.
  }
}

/** What is kept of an address that was behind, and of what it should have become. */
function late(): unknown[] {
  return JSON.parse(sessionStorage.getItem(LATE) ?? '[]') as unknown[]
}

/** The page is left: a reload may be under way already, to the address as it is. */
function leave(): void {
  const { href } = location
  flush()
  noteLate(href, written)
}

/** Keeps what an address should have become, where it is behind. */
function noteLate(href: string, hash: string): void {
  try {
    // A lesson keeps nothing.
    const isKept = !isLong(hash) && !('lesson' in document.documentElement.dataset)
    if (isKept && href !== whole(hash)) sessionStorage.setItem(LATE, JSON.stringify([href, hash]))
    // A reload that is under way may not know of an address that was written just now.
    else if (!isKept || late()[1] !== hash) sessionStorage.removeItem(LATE)
  } catch {
    // Refused, or full.
  }
}

/** Follows in place as soon as it may, once what is to be drawn now is drawn. */
export function replaceSoon(hash: () => string): void {
  forget()
  waiting = hash
  frame = requestAnimationFrame(() => {
    const delay = even - BURST * APART - performance.now()
    // A page that a reload opens may be there before this one is told that it is left.
    if (delay > 0) noteLate(location.href, hash())
    timer = setTimeout(flush, delay)
  })
}

/** What waits is written no more. */
function forget(): void {
  cancelAnimationFrame(frame)
  clearTimeout(timer)
  waiting = null
}

/** Makes a new entry of the history, at once. */
export function push(hash: string): void {
  flush()
  if (hash === location.hash) return
  written = hash
  change('pushState', hash)
}

/** Writes what waits to be written; what is too long for an address leaves it as it is. */
export function flush(): void {
  const hash = waiting?.()
  forget()
  if (hash === undefined || isLong(hash)) return
  written = hash
  if (written === location.hash) return
  even = Math.max(even, performance.now()) + APART
  change('replaceState', written)
}

/** Calls `opened` whenever the address becomes one that the page did not write. */
export function listen(opened: (hash: string) => void): void {
  const changed = () => {
    if (location.hash === written) return
    forget()
    written = location.hash
    noteBeginning({ hash: written })
    opened(written)
  }
  addEventListener('hashchange', changed)
  addEventListener('popstate', changed)
  addEventListener('pagehide', leave)
  document.addEventListener('visibilitychange', flush)
  document.addEventListener('click', follow)
}

/** A link is about to be followed: the screen that it is on is written down first. */
function follow(event: MouseEvent): void {
  flush()
  // A page that is text inside another takes that other's address for the base
  // of its links, and would leave for there.
  const link = event.target instanceof Element ? event.target.closest('a[href^="#"]') : null
  // A lesson stays where it is: what leads elsewhere opens beside it.
  if (link !== null && document.documentElement.dataset['lesson'] !== undefined) {
    event.preventDefault()
    openBeside(whole(link.getAttribute('href') ?? ''))
    return
  }
  if (location.protocol !== 'about:' || link === null || event.defaultPrevented) return
  event.preventDefault()
  location.hash = link.getAttribute('href') ?? ''
}

/** Opens an address in a tab of its own; a strict frame may forbid that, and then its reader is told. */
export function openBeside(url: string): void {
  // What is told `noopener` here does not tell whether it opened.
  const opened = window.open(url, '_blank')
  if (opened === null) toldRefused?.(url)
  else opened.opener = null
}

/** Calls `listener` with an address that was not opened. */
export function whenNotOpened(listener: (url: string) => void): () => void {
  toldRefused = listener
  return () => {
    toldRefused = null
  }
}

function change(method: 'pushState' | 'replaceState', hash: string): void {
  try {
    // An empty address would leave the present one as it is.
    history[method](null, '', hash === '' ? '#' : hash)
  } catch {
    // A frame without an address of its own: the screen works, the link does not follow.
  }
  noteBeginning({ hash })
}
