// After Trunk has built the page: what it cannot build itself.

import { readFileSync, unlinkSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'node-html-parser'
import { placeLate } from './late.mjs'
import { placeServiceWorker } from './offline.mjs'
import { hash, inScript, writeOneFile } from './one-file.mjs'
import { languages } from './page-words.mjs'
import { placeEngines, placeLanguages, severalOf, shortened } from './place-engines.mjs'
import { placeStart } from './start-page.mjs'
import { sayStart } from './start-words.mjs'

const folder = process.env.TRUNK_STAGING_DIR
const file = join(folder, 'index.html')

const page = parse(readFileSync(file, 'utf8'))
placeLate(page, folder)
await placeEngines(page, folder)
placeGlue(page, folder)
for (const [code] of languages()) {
  const own = parse(page.toString())
  sayStart(own, code)
  writeOneFile(own, folder, code)
}
placeLanguages(page, folder)
// The one file may begin with another screen, which is not known before its end.
placeStart(page)
for (const script of ['early', 'boot']) placeInside(page, folder, script)
writeFileSync(file, page.toString())
placeServiceWorker(folder)

function placeGlue(page, folder) {
  const file = join(folder, page.querySelector('#engine-glue').getAttribute('src'))
  writeFileSync(file, shortened(severalOf(readFileSync(file, 'utf8'), 'engineGlue')))
}

/** The scripts that say why a page does not start are part of the page, which may have got nothing else. */
function placeInside(page, folder, id) {
  const element = page.querySelector(`#${id}`)
  const name = element.getAttribute('src')
  const script = inScript(readFileSync(join(folder, name), 'utf8').trim())
  element.replaceWith(`<script id="${id}">${script}</script>`)
  unlinkSync(join(folder, name))
  const policy = page.querySelector('#policy')
  const rules = policy.getAttribute('content')
  policy.setAttribute('content', rules.replace("script-src 'self'", `$& ${hash(script)}`))
}
