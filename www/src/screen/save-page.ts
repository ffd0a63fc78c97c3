// The page as one file, as somebody saves it; what it says of itself then is in saved-page.ts.

import { fileOf, language, LANGUAGES } from '../base/language'
import { unstick } from '../base/start-watch'
import { BLOCK, isOneFile, undraw, writeBlock, type Beginning } from './saved-page'

/** The whole page as one file that begins with this screen; the words of another language come along on request. */
export async function savedPage(now: Beginning, second = ''): Promise<string> {
  if (isOneFile()) return ownText(now)
  const own = await oneFileIn(language)
  const text = withLanguages(own, second, second === '' ? '' : await oneFileIn(second))
  const filled = text.replace(
    new RegExp(`(<script id="${BLOCK}"[^>]*>)[^<]*`),
    (_, start: string) => `${start}${writeBlock(now)}`,
  )
  if (filled === text) throw new Error(`the one file has no ${BLOCK}`)
  return filled
}

/** The one file of a language, from beside this page. */
async function oneFileIn(code: string): Promise<string> {
  const name = fileOf(code)
  const response = await fetch(name)
  if (!response.ok) throw new Error(`${name}: ${response.status}`)
  return response.text()
}

/** Says which languages it has, and puts in the words of the second from its own file. */
function withLanguages(text: string, second: string, other: string): string {
  if (second === '') return text
  const named = text.replace(/(data-languages="[^"]*)"/, `$1 ${second}"`)
  const words = [...other.matchAll(/<script id="[a-z]+-words"[^>]*>[^<]*<\/script>/g)].map(([element]) =>
    element.replace('id="', `id="${second}.`),
  )
  return words.length === 0 ? named : named.replace('<script id="worker-source"', `${words.join('\n')}\n$&`)
}

/** This page, which is one file, from what the browser holds of it. */
function ownText(now: Beginning): string {
  const copy = document.documentElement.cloneNode(true) as HTMLElement
  delete copy.dataset['theme']
  delete copy.dataset['lesson']
  delete copy.dataset['started']
  delete copy.dataset['elsewhere']
  copy.lang = language
  copy.dataset['languages'] = [language, ...LANGUAGES.filter(code => code !== language)].join(' ')
  const start = copy.querySelector<HTMLElement>('#start')
  if (start !== null) unstick(start)
  copy.querySelector('#chosen-colour')?.remove()
  undraw(copy)
  const block = copy.querySelector(`#${BLOCK}`)
  if (block !== null) block.textContent = writeBlock(now)
  // The parser would move a last line into the page, one more each time.
  return `<!doctype html>\n${copy.outerHTML}`
}
