// The service worker beside the page, which has to know every file of it.

import { createHash } from 'node:crypto'
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { basename, join, relative, sep } from 'node:path'
import { generated } from './folders.mjs'
import { FIRST } from './place-engines.mjs'

/** What people change on their host, so that no hash of it can be promised. */
const edited = ['lesson.css', 'lesson.html']
const SCRIPT = 'service-worker.js'

/** Writes the service worker; all other files must be in the folder by now. */
export function placeServiceWorker(folder) {
  const files = filesIn(folder)
    .map(file => relative(folder, file).split(sep).join('/'))
    // What answers a first visit is of no use to the next one.
    .filter(file => file !== SCRIPT && !edited.includes(file) && !basename(file).startsWith(FIRST))
  const hashes = files.map(file => [file, hash(readFileSync(join(folder, file)), 'base64')])
  const version = hash(JSON.stringify(hashes), 'hex').slice(0, 16)
  const known = Object.fromEntries(hashes.map(([file, hash]) => [file, `sha256-${hash}`]))
  const constants = [
    ['VERSION', version],
    ['FILES', known],
    ['EDITED', edited],
  ]
  const written = constants.map(([name, value]) => `${name} = ${JSON.stringify(value)}`)
  writeFileSync(join(folder, SCRIPT), `const ${written.join(', ')};\n${readFileSync(join(generated, SCRIPT), 'utf8')}`)
}

function hash(content, encoding) {
  return createHash('sha256').update(content).digest(encoding)
}

function filesIn(folder) {
  return readdirSync(folder)
    .sort()
    .map(name => join(folder, name))
    .flatMap(path => (statSync(path).isDirectory() ? filesIn(path) : [path]))
}
