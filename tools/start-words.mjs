// What stands in the page before any words have come, in the language of a single file.
// `www/index.html` has it in English; the catalogue has the same with its translations.

import { wordsIn } from './page-words.mjs'

const FILE = /<code>.*?<\/code>/

/** Puts the words of a language in the place of the English ones. */
export function sayStart(page, language) {
  const [english, own] = [textsIn(), textsIn(language)]
  const keys = new Map(Object.entries(english).map(([key, text]) => [text, key]))
  const said = html => {
    const [file = ''] = FILE.exec(html) ?? []
    const text = html.replace(FILE, '{ $file }').replace(/\s+/g, ' ').trim()
    if (text === '') return html
    if (!keys.has(text)) throw new Error(`the catalogue lacks what the page begins with: ${text}`)
    return own[keys.get(text)].replace('{ $file }', file)
  }
  // What is strong is a sentence of its own, before the rest.
  const inPlace = html => {
    const [, head, rest] = /^\s*(?:<strong>(.*?)<\/strong>)?(.*)$/s.exec(html)
    return [head === undefined ? '' : `<strong>${said(head)}</strong>`, said(rest)]
      .filter(part => part.trim())
      .join(' ')
  }
  const start = page.querySelector('#start')
  for (const one of start.querySelectorAll('p, button')) one.innerHTML = inPlace(one.innerHTML)
  start.setAttribute('aria-label', said(start.getAttribute('aria-label')))
  start.setAttribute('lang', language)
  // What is in it is text to a parser.
  const without = page.querySelector('noscript')
  without.innerHTML = without.innerHTML.replace(/(<p[^>]*>)(.*?)(?=<\/p>)/s, (_, before, text) => before + said(text))
  const { words } = JSON.parse(wordsIn('page-words.json', language))
  page.querySelector('#page h1').textContent = words.title
  page.querySelector('#page h1 + p').textContent = words.purpose
}

function textsIn(language) {
  return JSON.parse(wordsIn('start-words.json', language)).words
}
