// After early.ts, of the scripts early.ts, boot.ts and main.ts: what boot.ts does before
// the first frame, or the page would flash in another theme, or as a whole page inside a
// lesson; where a host forbids scripts in the page itself, main.ts makes up for it.

import { beginLanguage, isElsewhere } from './base/language'
import { peekTheme } from './screen/settings'
import { THEMES, showTheme } from './screen/theme'
import { watchStart } from './base/start-watch'
import { fetchEarly } from './engine/wanted'

declare global {
  interface Window {
    /** Not kept in a page that is saved as it is on the screen. */
    begun?: true
  }
}

export function begin(): void {
  if (window.begun) return
  window.begun = true
  watchStart()
  beginLanguage()
  fetchEarly()
  const { hash } = location
  markElsewhere()
  addEventListener('hashchange', markElsewhere)
  const lesson = /[?&]lesson(&|$)/.test(hash)
  const [, wanted] = /[?&]theme=(\w+)/.exec(hash) ?? []
  if (lesson) document.documentElement.dataset['lesson'] = ''
  showTheme(lesson ? (THEMES.find(theme => theme === wanted) ?? 'system') : peekTheme())
}

/** The page itself shows the start in its first language, which is hidden until the screen of another address or language is drawn. */
function markElsewhere(): void {
  document.documentElement.toggleAttribute('data-elsewhere', location.hash.length > 1 || isElsewhere())
}
