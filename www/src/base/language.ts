// The language of the words. It is known before the first frame, from the link, from
// what the reader chose, or from the browser; numbers have settings of their own.
// The page itself names the languages that it has, in `data-languages`: the code of
// each, its own first, and the folder of its words where that is another:
// `en es=./words-es-0123456789abcdef/`.

import { isText, peek } from './kept'

/** What the reader chose is kept under this key. */
export const KEY = 'language'
/** Kept for this tab: what the last link said. */
const IN_TAB = 'stageohm.language'
const IN_LINK = /[?&]language=([\w-]*)(?=&|$)/g
const { dataset } = document.documentElement

const folders = new Map(
  (dataset['languages'] ?? 'en').split(' ').map(one => {
    const [code = '', folder] = one.split('=')
    return [code, folder] as const
  }),
)

/** The languages of this page, by their codes. */
export const LANGUAGES: readonly string[] = [...folders.keys()]
/** The one that stands in for what another lacks. */
export const ENGLISH = 'en'

/** That of this reader. A link says it for its tab alone; one that is not here says nothing. */
export const language = decided()

function decided(): string {
  const linked = knownIn(location.hash) ?? knownIn(location.search)
  const others = [inTab(linked), peek(KEY, isText), ...navigator.languages]
  return linked ?? others.map(known).find(code => code !== undefined) ?? LANGUAGES[0] ?? ENGLISH
}

/** The language of a tag, such as that of Mexico, where it is here. */
function known(tag: string | null = null): string | undefined {
  return LANGUAGES.find(code => tag?.toLowerCase().split(/[-_]/)[0] === code)
}

/** The first language in an address that is here. */
function knownIn(address: string): string | undefined {
  return [...address.matchAll(IN_LINK)].map(([, tag]) => known(tag)).find(code => code !== undefined)
}

/** What the last link in this tab said, which is remembered; but a frame of a lesson is not the tab. */
function inTab(linked: string | undefined): string | null {
  try {
    if (/[?&]lesson(?=&|$)/.test(location.hash)) return null
    if (linked !== undefined) sessionStorage.setItem(IN_TAB, linked)
    return sessionStorage.getItem(IN_TAB)
  } catch {
    // Refused.
    return null
  }
}

/** The name of the one file of a language, beside this page. */
export function fileOf(code: string): string {
  return code === ENGLISH ? 'stageohm.html' : `stageohm-${code}.html`
}

/** An address without its language: it opens in that of whoever opens it. */
export function withoutLanguage(address: string): string {
  const plain = address.replace(/([?&])(?:language=[\w-]*(?:&|(?=#)|$))+/g, '$1')
  return plain === address ? address : plain.replace(/[?&](?=#|$)/g, '')
}

/** Whether an address that was just followed says another language than the one that is shown. */
export function saysOther(address: string): boolean {
  return (knownIn(address) ?? language) !== language
}

/** Before the first frame: what is said from here on, and where its words come from. */
export function beginLanguage(): void {
  document.documentElement.lang = language
  const folder = folders.get(language)
  if (folder === undefined) return
  for (const link of document.querySelectorAll<HTMLLinkElement>('link[id$="-words"]')) {
    const own = (link.dataset['own'] ??= link.getAttribute('href') ?? '')
    link.href = own.replace(/^.*?([\w-]+)-[\da-f]{16}\./, `${folder}$1.`)
  }
}

/** Whether the page as it stands before any script is in another language. */
export function isElsewhere(): boolean {
  return language !== (LANGUAGES[0] ?? ENGLISH)
}

/** Words that did not come: whether any are missed, and who is told. */
export const missed = { any: false, told: () => {} }

/** Words of the language did not come, and others stand in for them. */
export function noteMissed(all: boolean): void {
  missed.any = true
  if (all) document.documentElement.lang = LANGUAGES[0] ?? ENGLISH
  missed.told()
}
