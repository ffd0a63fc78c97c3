// Scripts that come later than the page, beside it, each under a name that changes
// with it, as Trunk names all others.

import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { generated } from './folders.mjs'

/** Writes a script into the folder of the page, which then links to it there. */
export function placeLate(page, folder, name) {
  const script = readFileSync(join(generated, `${name}.js`))
  const file = `${name}-${createHash('sha256').update(script).digest('hex').slice(0, 16)}.js`
  writeFileSync(join(folder, file), script)
  page.querySelector(`#${name}-source`).setAttribute('href', `./${file}`)
}
