// The files that the engines are made of, in the folder of the page, under names that
// change with them. Each has an element in the page that says where it is; what
// `rel="later"` names is fetched by nobody until a script wants it.
//
//   page-words                    what the page itself says
//   stage-words, …                what the stage, the finder of faults and the lessons say
//   engine-wasm, engine-words     the whole engine, placed by Trunk, and what it says
//   first-pickup-wasm, -words     the same for the small engine of a calculator
//   hear-wasm, hear-glue          what plays two rigs, and how a script speaks to it
//
// Those of words have the English ones; other languages stand in folders of their own.

import { createHash } from 'node:crypto'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { transformSync } from 'esbuild'
import { firstEngines } from './first-engines.mjs'
import { hearEngine } from './hear-engine.mjs'
import { screens } from './late.mjs'
import { ENGLISH, languages, wordFiles, wordsIn } from './page-words.mjs'

/** What the one file has no use for, by the beginning of its name and of its `id`. */
export const FIRST = 'first-'

export async function placeEngines(page, folder) {
  const place = (id, file, content) => {
    const [name, extension] = file.split('.')
    const named = `${name}-${createHash('sha256').update(content).digest('hex').slice(0, 16)}.${extension}`
    writeFileSync(join(folder, named), content)
    const link = `<link id="${id}" rel="later" as="fetch" crossorigin href="./${named}">`
    page.querySelector('#engine-wasm').insertAdjacentHTML('afterend', link)
  }
  place('page-words', 'page-words.json', wordsIn('page-words.json'))
  for (const piece of screens) place(`${piece}-words`, `${piece}-words.json`, wordsIn(`${piece}-words.json`))
  place('engine-words', 'engine-words.ftl', wordsIn('engine-words.ftl'))
  for (const [id, path] of await firstEngines()) {
    place(`${FIRST}${id}-wasm`, `${FIRST}${id}.wasm`, readFileSync(path))
    place(`${FIRST}${id}-words`, `${FIRST}${id}-words.ftl`, wordsIn(`first-${id}-words.ftl`))
  }
  const { engine, glue } = hearEngine()
  place('hear-wasm', 'hear.wasm', engine)
  place('hear-glue', 'hear-glue.js', shortened(severalOf(glue, 'hearGlue')))
}

/**
 * The words of each other language, in a folder that is named after all of them, so
 * that the page names no more than the folder; a language is fetched by those alone
 * who read it.
 */
export function placeLanguages(page, folder) {
  const placed = languages().map(([code]) => {
    if (code === ENGLISH) return code
    // The page has those of its start in itself.
    const names = wordFiles(code).filter(name => name !== 'start-words.json')
    const files = names.map(name => [name, wordsIn(name, code)])
    const hash = createHash('sha256')
    for (const [name, content] of files) hash.update(name).update('\0').update(content)
    const named = `words-${code}-${hash.digest('hex').slice(0, 16)}`
    mkdirSync(join(folder, named))
    for (const [name, content] of files) writeFileSync(join(folder, named, name), content)
    return `${code}=./${named}/`
  })
  page.querySelector('html').setAttribute('data-languages', placed.join(' '))
}

/** Glue has one engine; this gives a page as many as it asks for, by a name of its own. */
export function severalOf(glue, name) {
  // It asks for its own address, which a script has only while it is read, and one inside a page never.
  const own = 'document.currentScript.src'
  if (!glue.includes(own)) throw new Error(`the glue no longer asks for ${own}`)
  return `globalThis.${name} = () => {\n${glue.replace(own, 'document.baseURI')}\nreturn wasm_bindgen\n}`
}

/** Trunk's own way of making a script small names things in another order each time, and the same page is to be the same bytes. */
export function shortened(script) {
  return transformSync(script, { minify: process.env.TRUNK_PROFILE === 'release', target: 'es2022' }).code
}
