// The worker's script beside the page, under a name that changes with it, as
// Trunk names all others.

import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { generated } from './folders.mjs'

/** Writes the worker into the folder of the page, which then links to it there. */
export function placeWorker(page, folder) {
  const script = readFileSync(join(generated, 'worker.js'))
  const name = `worker-${createHash('sha256').update(script).digest('hex').slice(0, 16)}.js`
  writeFileSync(join(folder, name), script)
  page.querySelector('#worker-source').setAttribute('href', `./${name}`)
}
