// Another language for the page, which opens anew in it on the same screen.

import { keepChoice } from '../base/kept'
import { KEY, withoutLanguage } from '../base/language'
import * as address from './address'
import { isSaved } from './saved-page'

export function chooseLanguage(chosen: string): void {
  // A saved page keeps its choices apart from the reader's others.
  if (!isSaved()) keepChoice(KEY, chosen)
  address.flush()
  // Said in the address too, for a browser that keeps nothing.
  history.replaceState(null, '', inLanguage(location.href, chosen))
  location.reload()
}

/** The same address in a language. */
function inLanguage(address: string, language: string): string {
  const plain = withoutLanguage(address)
  const hash = plain.includes('#') ? plain : `${plain}#`
  return `${hash}${hash.includes('?') ? '&' : '?'}language=${language}`
}
