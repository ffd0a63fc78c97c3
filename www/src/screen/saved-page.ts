// The page as one file that somebody keeps. A block of data in it says what it
// begins with, so that it opens on the screen that it was saved from; the block
// is no script, so the policy of the file need not know what is in it.

import type { Settings } from '../../generated/contract'
import { isRecord } from '../base/kept'
import { isLong } from '../base/limit'
import type { Theme } from './theme'

export interface Beginning {
  /** The address of a screen, from its `#` on. */
  readonly hash: string
  readonly settings: Settings
  readonly theme: Theme
  /** Whether the working is open. */
  readonly working: boolean
  /** What stood in its place and could not be read, until the reader lets it go. */
  readonly unread?: string | undefined
  /** The show that it opens with, as the stage keeps it. */
  readonly show?: unknown
}

/** The identifier of the block. */
export const BLOCK = 'beginning'
const PAGE = 'page'

/** What stood in the page before anything was drawn; it is seen while the engine starts. */
let before: readonly Node[] = []
let saved: boolean | null = null

/** Empties the page for what is drawn; a page saved as it was on the screen comes with that. */
export function clearPage(): HTMLElement | null {
  const page = document.getElementById(PAGE)
  if (page === null) return null
  if (page.dataset['drawn'] === undefined) before = [...page.childNodes]
  page.dataset['drawn'] = ''
  page.replaceChildren()
  return page
}

/** Whether this page is one file, not that beside its files. */
export function isOneFile(): boolean {
  return document.getElementById(BLOCK) !== null
}

/** Whether somebody saved this page with choices of their own, which it keeps apart from the reader's others. */
export function isSaved(): boolean {
  saved ??= isRecord(beginning()['settings'])
  return saved
}

/** What a saved page begins with; nothing of what is not there or makes no sense. */
export function beginning(): Record<string, unknown> {
  const text = document.getElementById(BLOCK)?.textContent ?? ''
  // An editor may have put a mark before it, or blanks round it.
  const said = text.trim()
  if (said === '') return {}
  const read = readBlock(said)
  if (read === null) return { unread: text }
  const { hash = '' } = read
  return typeof hash === 'string' ? read : { ...read, hash: '', unread: text }
}

function readBlock(text: string): Record<string, unknown> | null {
  try {
    const read: unknown = JSON.parse(text)
    return isRecord(read) ? read : null
  } catch {
    return null
  }
}

/** What of a saved page's beginning could not be read, for the reader to rescue. */
export function unreadBeginning(): string | null {
  const { unread } = beginning()
  return typeof unread === 'string' ? unread : null
}

/**
 * Keeps the block of this page at the screen that is shown, so that the
 * browser's own Save As takes it along. The served page has no block.
 */
export function noteBeginning(now: Partial<Beginning>): void {
  const block = document.getElementById(BLOCK)
  if (block === null) return
  // A link that is too long to be read is nothing to begin with.
  const long = now.hash !== undefined && isLong(now.hash)
  block.textContent = writeBlock({ ...beginning(), ...now, ...(long ? { hash: '' } : {}) })
}

/** Puts back into a copy of the page what was seen before anything was drawn. */
export function undraw(copy: HTMLElement): void {
  const page = copy.querySelector<HTMLElement>(`#${PAGE}`)
  delete page?.dataset['drawn']
  page?.replaceChildren(...before.map(node => node.cloneNode(true)))
}

/** Nothing in it may look like a tag to the parser of the page. */
export function writeBlock(begin: object): string {
  return JSON.stringify(begin).replaceAll('<', '\\u003c')
}
