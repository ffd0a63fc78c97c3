// The page as one file, as somebody saves it; what it says of itself then is in saved-page.ts.

import { unstick } from '../base/start-watch'
import { BLOCK, isOneFile, undraw, writeBlock, type Beginning } from './saved-page'

/** The whole page as one file that begins with this screen. */
export async function savedPage(now: Beginning): Promise<string> {
  if (isOneFile()) return ownText(now)
  const response = await fetch('stageohm.html')
  if (!response.ok) throw new Error(`stageohm.html: ${response.status}`)
  const text = await response.text()
  const filled = text.replace(
    new RegExp(`(<script id="${BLOCK}"[^>]*>)[^<]*`),
    (_, start: string) => `${start}${writeBlock(now)}`,
  )
  if (filled === text) throw new Error(`stageohm.html has no ${BLOCK}`)
  return filled
}

/** This page, which is one file, from what the browser holds of it. */
function ownText(now: Beginning): string {
  const copy = document.documentElement.cloneNode(true) as HTMLElement
  delete copy.dataset['theme']
  delete copy.dataset['lesson']
  delete copy.dataset['started']
  delete copy.dataset['elsewhere']
  const start = copy.querySelector<HTMLElement>('#start')
  if (start !== null) unstick(start)
  copy.querySelector('#chosen-colour')?.remove()
  undraw(copy)
  const block = copy.querySelector(`#${BLOCK}`)
  if (block !== null) block.textContent = writeBlock(now)
  // The parser would move a last line into the page, one more each time.
  return `<!doctype html>\n${copy.outerHTML}`
}
