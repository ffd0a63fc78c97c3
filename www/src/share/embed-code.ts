// What an author puts into the page of a lesson, as text.

import { ENGLISH, fileOf, language } from '../base/language'
import { isOneFile } from '../screen/saved-page'
import type { Embed } from '../screen/embed'

export const FORMS = ['frame', 'element'] as const
export type Form = (typeof FORMS)[number]

/** How tall the frame is until it is told, and where no script follows it, in pixels. */
export function heightOf({ open, working }: Pick<Embed, 'open' | 'working'>): number {
  return open === null || working ? 900 : 700
}

/** Where the one file is: beside this page, or this page itself. */
function oneFile(): string {
  const own = location.href.replace(/[#?].*/, '')
  // A file on this machine is nowhere for others: it goes beside the lesson.
  if (location.protocol === 'file:') return own.replace(/.*\//, '')
  return isOneFile() ? own : new URL(fileOf(language), own).href
}

/** A frame with an origin of its own, which can do nothing but compute. */
export function frameLine(screen: string, title: string, height: number): string {
  const attributes = [
    `src="${escape(oneFile() + screen)}"`,
    `title="${escape(title)}"`,
    'sandbox="allow-scripts allow-downloads allow-popups allow-popups-to-escape-sandbox"',
    'allow="clipboard-write"',
    'loading="lazy"',
    `width="100%" height="${height}"`,
  ]
  return `<iframe ${attributes.join(' ')}></iframe>`
}

/** The script, once a page, and the element, as often as wanted. */
export function elementLines(screen: string, title: string): string {
  const script = oneFile().replace(/[^/]*$/, 'stageohm-element.js')
  const told = language === ENGLISH ? '' : ` language="${language}"`
  return [
    `<script src="${escape(script)}" defer></script>`,
    `<stageohm-calculator screen="${escape(screen)}"${told} title="${escape(title)}"></stageohm-calculator>`,
  ].join('\n')
}

export function escape(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('"', '&quot;').replaceAll('<', '&lt;')
}
