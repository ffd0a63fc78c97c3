// The page as one file that somebody keeps. A block of data in it says what it
// begins with, so that it opens on the screen that it was saved from; the block
// is no script, so the policy of the file need not know what is in it.

import type { Settings } from '../generated/contract'
import type { Theme } from './settings'

export interface Beginning {
  /** The address of a screen, from its `#` on. */
  readonly hash: string
  readonly settings: Settings
  readonly theme: Theme
}

const BLOCK = 'beginning'
const PAGE = 'page'

/** What stood in the page before anything was drawn; it is seen while the engine starts. */
let before: readonly Node[] = []

/** Empties the page for what is drawn; a page saved as it was on the screen comes with that. */
export function clearPage(): HTMLElement | null {
  const page = document.getElementById(PAGE)
  if (page === null) return null
  if (page.dataset['drawn'] === undefined) before = [...page.childNodes]
  page.dataset['drawn'] = ''
  page.replaceChildren()
  return page
}

/** What a saved page begins with; nothing of what is not there or makes no sense. */
export function beginning(): Record<string, unknown> {
  try {
    const read: unknown = JSON.parse(document.getElementById(BLOCK)?.textContent ?? '{}')
    return typeof read === 'object' && read !== null ? { ...read } : {}
  } catch {
    return {}
  }
}

/**
 * Keeps the block of this page at the screen that is shown, so that the
 * browser's own Save As takes it along. The served page has no block.
 */
export function noteBeginning(hash: string): void {
  const block = document.getElementById(BLOCK)
  if (block !== null) block.textContent = write({ ...beginning(), hash })
}

/** The whole page as one file that begins with this screen. */
export async function savedPage(now: Beginning): Promise<string> {
  if (document.getElementById(BLOCK) !== null) return ownText(now)
  const response = await fetch('stageohm.html')
  if (!response.ok) throw new Error(`stageohm.html: ${response.status}`)
  const text = await response.text()
  const filled = text.replace(
    new RegExp(`(<script id="${BLOCK}"[^>]*>)[^<]*`),
    (_, start: string) => `${start}${write(now)}`,
  )
  if (filled === text) throw new Error(`stageohm.html has no ${BLOCK}`)
  return filled
}

/** This page, which is one file, from what the browser holds of it. */
function ownText(now: Beginning): string {
  const copy = document.documentElement.cloneNode(true) as HTMLElement
  delete copy.dataset['theme']
  copy.querySelector('#chosen-colour')?.remove()
  const page = copy.querySelector<HTMLElement>(`#${PAGE}`)
  delete page?.dataset['drawn']
  page?.replaceChildren(...before.map(node => node.cloneNode(true)))
  const block = copy.querySelector(`#${BLOCK}`)
  if (block !== null) block.textContent = write(now)
  return `<!doctype html>\n${copy.outerHTML}\n`
}

/** Nothing in it may look like a tag to the parser of the page. */
function write(begin: object): string {
  return JSON.stringify(begin).replaceAll('<', '\\u003c')
}
