// What an author puts into the page of a lesson, as text.

import { isOneFile } from '../screen/saved-page'
import type { Embed } from '../screen/embed'
import { writePlace, type Filling } from '../screen/link'
import type { Settings } from '../../generated/contract'

/** How tall the frame is until it is told, and where no script follows it. */
const HEIGHT = 900

/** Where the one file is: beside this page, or this page itself. */
function oneFile(): string {
  const own = location.href.replace(/[#?].*/, '')
  // A file on this machine is nowhere for others: it goes beside the lesson.
  if (location.protocol === 'file:') return own.replace(/.*\//, '')
  return isOneFile() ? own : new URL('stageohm.html', own).href
}

/** A frame with an origin of its own, which can do nothing but compute. */
export function frameLine(filling: Filling, embed: Embed, settings: Settings, title: string): string {
  const address = oneFile() + writePlace({ ...filling, embed }, settings)
  const attributes = [
    `src="${escape(address)}"`,
    `title="${escape(title)}"`,
    'sandbox="allow-scripts allow-downloads allow-popups allow-popups-to-escape-sandbox"',
    'allow="clipboard-write"',
    'loading="lazy"',
    `width="100%" height="${HEIGHT}"`,
  ]
  return `<iframe ${attributes.join(' ')}></iframe>`
}

/** The script, once a page, and the element, as often as wanted. */
export function elementLines(filling: Filling, embed: Embed, settings: Settings, title: string): string {
  const script = oneFile().replace(/[^/]*$/, 'stageohm-element.js')
  const screen = writePlace({ ...filling, embed }, settings)
  return [
    `<script src="${escape(script)}" defer></script>`,
    `<stageohm-calculator screen="${escape(screen)}" title="${escape(title)}"></stageohm-calculator>`,
  ].join('\n')
}

export function escape(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;')
}
