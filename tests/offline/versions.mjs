// Two versions of the built page, and what uploads make of them: each file old,
// new, missing or cut short.

import { cpSync, mkdirSync, readFileSync, readdirSync, renameSync, statSync, writeFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { dist } from '../../tools/folders.mjs'
import { placeServiceWorker } from '../../tools/offline.mjs'
import { FIRST } from '../../tools/place-engines.mjs'

/** The page as it was built. */
export function builtFiles() {
  return filesIn(dist)
}

/**
 * Another version of it, every file of which is another one, and its main script
 * perhaps quite another; made in an empty folder.
 */
export function renewedFiles(folder, mark = 'renewed', { main, only } = {}) {
  mkdirSync(folder, { recursive: true })
  cpSync(dist, folder, { recursive: true })
  const renamed = new Map()
  for (const [name, content] of filesIn(folder)) {
    if (only !== undefined && name !== only) continue
    const path = join(folder, name)
    const own = main !== undefined && name.startsWith('main-') ? Buffer.from(main) : content
    writeFileSync(path, Buffer.concat([own, addition(name, mark)]))
    const other = name.replace(HASH, hash => `-${[...hash.slice(1)].reverse().join('')}`)
    if (other === name) continue
    renameSync(path, join(folder, other))
    renamed.set(name, other)
  }
  const index = join(folder, 'index.html')
  const page = readFileSync(index, 'utf8').replace(/<html lang="?en"?/, `$& data-${mark}`)
  writeFileSync(
    index,
    [...renamed].reduce((text, [from, to]) => text.replaceAll(from, to), page),
  )
  placeServiceWorker(folder)
  return filesIn(folder)
}

/** The names by which a version is kept: not what people edit, nor what answers a first visit, nor other languages. */
export function keptNames(files) {
  return [...files.keys()].filter(
    name =>
      !name.startsWith('lesson.') &&
      !name.startsWith(FIRST) &&
      !/^(words-[a-z]+-|stageohm-[a-z]{2,3}\.html$)/.test(name),
  )
}

/** What the build puts into names that change with each version. */
const HASH = /-[0-9a-f]{10,16}(?=[._])/

/** The name of the same file in another version. */
export function nameIn(files, name) {
  const base = name => name.replace(HASH, '')
  return [...files.keys()].find(other => base(other) === base(name)) ?? name
}

export const STATES = ['old', 'missing', 'cut']

/** The new version where some of its files are not as they should be. */
export function uploaded(before, after, states) {
  const files = new Map(after)
  for (const [name, state] of Object.entries(states)) {
    const whole = after.get(name)
    files.delete(name)
    if (state === 'cut') files.set(name, whole.subarray(0, whole.length >> 1))
    // A name that changes with each version has its old file under the old name.
    const old = nameIn(before, name)
    if (state === 'old' && before.has(old)) files.set(old, before.get(old))
  }
  return files
}

/** Each of these files alone in each bad state, then each pair of them. */
export function* mishaps(names) {
  for (const [at, first] of names.entries()) {
    for (const one of STATES) {
      yield { [first]: one }
      for (const second of names.slice(at + 1)) for (const other of STATES) yield { [first]: one, [second]: other }
    }
  }
}

/** What changes nothing but the bytes of a file. */
function addition(name, mark) {
  if (name.endsWith('.wasm')) return Buffer.from([0, 1 + mark.length, mark.length, ...Buffer.from(mark)])
  if (/\.(js|css)$/.test(name)) return Buffer.from(`\n/* ${mark} */`)
  if (/\.(html|svg)$/.test(name)) return Buffer.from(`\n<!-- ${mark} -->`)
  return Buffer.from('\n')
}

function filesIn(folder) {
  const list = place =>
    readdirSync(place)
      .sort()
      .map(name => join(place, name))
      .flatMap(path => (statSync(path).isDirectory() ? list(path) : [path]))
  return new Map(list(folder).map(path => [relative(folder, path).split(sep).join('/'), readFileSync(path)]))
}
