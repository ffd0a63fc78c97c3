// A page as far as its readers need one: the modules under test in one script, which
// is run with a browser of its own each time, as a page that is opened.

import { buildSync } from 'esbuild'
import { root } from '../../tools/folders.mjs'
import { script } from '../../tools/script.mjs'

/** What the page takes from a browser by these names. */
const BROWSER = [
  ...['localStorage', 'sessionStorage', 'location', 'history', 'document', 'addEventListener', 'fetch', 'performance'],
  ...[
    'requestAnimationFrame',
    'cancelAnimationFrame',
    'setTimeout',
    'clearTimeout',
    'window',
    'navigator',
    'HTMLElement',
    'Element',
  ],
]

/** A function that opens a page with these modules of `www/src`, each under the last part of its name. */
export function pageWith(...modules) {
  const lines = modules.map(module => `export * as ${nameOf(module)} from './www/src/${module}'`)
  const { outputFiles } = buildSync({
    ...script,
    stdin: { contents: lines.join('\n'), resolveDir: root, loader: 'ts' },
    globalName: 'page',
    write: false,
  })
  const open = new Function(...BROWSER, `${outputFiles[0].text}\nreturn page`)
  return (browser = {}) => {
    const all = { ...idle(), ...browser }
    return open(...BROWSER.map(name => all[name]))
  }
}

function nameOf(module) {
  return module.replace(/.*\/|\.ts$/g, '').replace(/-(\w)/g, (_, letter) => letter.toUpperCase())
}

/** A browser in which nothing happens. */
function idle() {
  const none = () => undefined
  return {
    localStorage: new Storage(),
    sessionStorage: new Storage(),
    location: { hash: '', search: '', href: 'https://example.org/', protocol: 'https:' },
    history: { pushState: none, replaceState: none },
    document: { getElementById: () => null, addEventListener: none, documentElement: { dataset: {} } },
    addEventListener: none,
    performance: { now: () => 0 },
    requestAnimationFrame: () => 1,
    cancelAnimationFrame: none,
    setTimeout: () => 1,
    clearTimeout: none,
    window: {},
    navigator: { languages: [] },
    HTMLElement: class {},
    Element: class {},
  }
}

/** What a browser keeps; it refuses what is more than its room, or all. */
export class Storage {
  #texts = new Map()
  #room

  constructor(texts = {}, room = Infinity) {
    this.#texts = new Map(Object.entries(texts))
    this.#room = room
  }

  get texts() {
    return Object.fromEntries(this.#texts)
  }

  getItem(key) {
    return this.#texts.get(key) ?? null
  }

  setItem(key, text) {
    const others = [...this.#texts].filter(([other]) => other !== key)
    const taken = others.reduce((sum, [other, text]) => sum + other.length + text.length, key.length + text.length)
    if (taken > this.#room) throw new Error('full')
    this.#texts.set(key, text)
  }

  removeItem(key) {
    this.#texts.delete(key)
  }
}
