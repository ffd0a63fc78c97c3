// The files that the engines are made of, in the folder of the page, under names that
// change with them. Each has an element in the page that says where it is; what
// `rel="later"` names is fetched by nobody until a script wants it.
//
//   page-words                    what the page itself says
//   stage-words, …                what the stage, the finder of faults and the lessons say
//   engine-wasm, engine-words     the whole engine, placed by Trunk, and what it says
//   first-pickup-wasm, -words     the same for the small engine of a calculator

import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { firstEngines } from './first-engines.mjs'
import { screens } from './late.mjs'
import { wordsIn } from './page-words.mjs'

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
  place('page-words', 'page-words.json', wordsIn('page.json'))
  for (const piece of screens) place(`${piece}-words`, `${piece}-words.json`, wordsIn(`${piece}.json`))
  place('engine-words', 'engine-words.ftl', wordsIn('whole.ftl'))
  for (const [id, path] of await firstEngines()) {
    place(`${FIRST}${id}-wasm`, `${FIRST}${id}.wasm`, readFileSync(path))
    place(`${FIRST}${id}-words`, `${FIRST}${id}.ftl`, wordsIn(`${id}.ftl`))
  }
}

/** The glue of Trunk has one engine; this gives a page as many as it asks for. */
export function severalOf(glue) {
  // It asks for its own address, which a script has only while it is read, and one inside a page never.
  const own = 'document.currentScript.src'
  if (!glue.includes(own)) throw new Error(`the glue no longer asks for ${own}`)
  return `globalThis.engineGlue = () => {\n${glue.replace(own, 'document.baseURI')}\nreturn wasm_bindgen\n}`
}
