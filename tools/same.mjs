// Builds the page once more, from a copy of the sources in another folder, and
// compares every file with the page that stands here: whoever builds it gets the
// same bytes.

import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { cpSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, symlinkSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { building } from './build.mjs'
import { dist, root } from './folders.mjs'

const copy = mkdtempSync(join(tmpdir(), 'elsewhere-'))
try {
  const listed = ['ls-files', '--cached', '--others', '--exclude-standard', '-z']
  const files = execFileSync('git', listed, { cwd: root, encoding: 'utf8' }).split('\0').filter(Boolean)
  for (const file of files) cpSync(join(root, file), join(copy, file), { recursive: true })
  symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'))
  const [program, args, env] = building
  const own = { ...process.env, ...env, CARGO_TARGET_DIR: join(copy, 'target') }
  execFileSync(program, args, { cwd: copy, env: own, stdio: 'inherit' })
  const different = differences(hashes(dist), hashes(join(copy, 'dist')))
  if (different.length > 0) throw new Error(`Another folder gives another page: ${different.join(', ')}`)
  console.log('Every file is the same, built in another folder')
} finally {
  rmSync(copy, { recursive: true, force: true })
}

/** The hash of each file in a folder. */
function hashes(folder) {
  const walk = inner =>
    readdirSync(inner)
      .map(name => join(inner, name))
      .flatMap(path => (statSync(path).isDirectory() ? walk(path) : [path]))
  const hash = path => createHash('sha256').update(readFileSync(path)).digest('hex')
  return new Map(walk(folder).map(path => [relative(folder, path), hash(path)]))
}

function differences(here, there) {
  return [...new Set([...here.keys(), ...there.keys()])].filter(name => here.get(name) !== there.get(name)).sort()
}
