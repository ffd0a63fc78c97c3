// The service worker beside the page, which has to know every file of it.

import { createHash } from 'node:crypto'
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { generated } from './folders.mjs'

/** Writes the service worker; all other files must be in the folder by now. */
export function placeServiceWorker(folder) {
  const files = filesIn(folder).map(file => relative(folder, file).split(sep).join('/'))
  const hash = createHash('sha256')
  for (const file of files) hash.update(file).update(readFileSync(join(folder, file)))
  const version = hash.digest('hex').slice(0, 16)
  // The folder itself is how the page is asked for.
  const known = ['./', ...files]
  const script = readFileSync(join(generated, 'service-worker.js'), 'utf8')
  writeFileSync(
    join(folder, 'service-worker.js'),
    `const VERSION = ${JSON.stringify(version)}, FILES = ${JSON.stringify(known)}\n${script}`,
  )
}

function filesIn(folder) {
  return readdirSync(folder)
    .sort()
    .map(name => join(folder, name))
    .flatMap(path => (statSync(path).isDirectory() ? filesIn(path) : [path]))
}
