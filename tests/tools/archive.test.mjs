// Of programs that their makers built, only the bytes on record are unpacked.

import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, test } from 'node:test'
import { pathToFileURL } from 'node:url'
import { HASHES, unpack } from '../../tools/archive.mjs'

const root = new URL('../..', import.meta.url)
const folder = mkdtempSync(join(tmpdir(), 'stageohm-'))
after(() => rmSync(folder, { recursive: true }))

/** An archive with a program in it, in a folder as some makers have it. */
const archive = join(folder, 'made.tar.gz')
mkdirSync(join(folder, 'made'))
writeFileSync(join(folder, 'made', 'trunk'), 'what its makers built')
execFileSync('tar', ['-czf', archive, '-C', folder, 'made'])
const sha256 = file => createHash('sha256').update(readFileSync(file)).digest('hex')

function unpacked(file, hash) {
  const into = mkdtempSync(join(folder, 'into-'))
  const why = unpack(pathToFileURL(file).href, hash, 1, into)
  return { why, files: readdirSync(into), into }
}

test('the bytes on record are unpacked', () => {
  const { why, files, into } = unpacked(archive, sha256(archive))
  assert.equal(why, null)
  assert.deepEqual(files, ['trunk'])
  assert.equal(readFileSync(join(into, 'trunk'), 'utf8'), 'what its makers built')
})

test('other bytes are refused with a warning, and nothing of them stays', () => {
  const other = sha256(archive).replace(/^./, first => (first === '0' ? '1' : '0'))
  const { why, files } = unpacked(archive, other)
  assert.match(why, /^WARNING: /)
  assert.ok(why.includes(sha256(archive)) && why.includes(other))
  assert.deepEqual(files, [])
})

test('what cannot be fetched or unpacked is said', () => {
  const missing = unpacked(join(folder, 'nothing.tar.gz'), sha256(archive))
  assert.match(missing.why, /cannot be fetched/)
  const text = join(folder, 'text.tar.gz')
  writeFileSync(text, 'no archive')
  const broken = unpacked(text, sha256(text))
  assert.match(broken.why, /cannot be unpacked/)
  assert.deepEqual([missing.files, broken.files], [[], []])
})

test('a program is built where what is fetched is not what is known, or nothing is', () => {
  const tools = join(folder, 'tools')
  const bin = join(tools, 'bin')
  mkdirSync(bin, { recursive: true })
  const script = (name, text) => {
    writeFileSync(join(bin, name), `#!/bin/sh\n${text}\n`)
    chmodSync(join(bin, name), 0o755)
  }
  script('trunk', 'echo trunk 0.0.1')
  script('wasm-bindgen', 'echo wasm-bindgen 0.0.1')
  script('cargo', 'echo cargo "$@"')
  script(
    'curl',
    `while [ "$1" != -o ]; do shift; done\ncp '${archive}' "$2"\necho "$3" >> '${join(folder, 'fetched')}'`,
  )
  const code = "import('./tools/rust-programs.mjs').then(({ ensureRustPrograms }) => ensureRustPrograms())"
  const env = { ...process.env, STAGEOHM_TOOLS: tools }
  const installed = machine => {
    script('rustc', `echo host: ${machine}`)
    return execFileSync(process.execPath, ['--eval', code], { cwd: root, env, encoding: 'utf8' })
  }
  const known = installed('x86_64-unknown-linux-gnu')
  assert.match(known, /WARNING: https:\/\/github\.com\/trunk-rs\/trunk\/.*-x86_64-unknown-linux-musl\.tar\.gz /)
  assert.match(known, /^cargo install trunk --version /m)
  assert.match(readFileSync(join(bin, 'trunk'), 'utf8'), /0\.0\.1/)
  // Nothing is fetched that could not be checked.
  rmSync(join(folder, 'fetched'))
  const unknown = installed('riscv64gc-unknown-linux-gnu')
  assert.match(unknown, /No hash is on record of a ready-made trunk .* for riscv64gc-unknown-linux-musl/)
  assert.match(unknown, /^cargo install trunk --version /m)
  assert.match(unknown, /^cargo install wasm-bindgen-cli --version /m)
  assert.ok(!existsSync(join(folder, 'fetched')))
})

test('the hashes are of the versions that the project names', () => {
  const find = (file, pattern) => readFileSync(new URL(file, root), 'utf8').match(pattern)[1]
  const trunk = `trunk ${find('Trunk.toml', /^trunk-version = "=(.+)"/m)}`
  const bindgen = `wasm-bindgen ${find('Cargo.lock', /^name = "wasm-bindgen"\nversion = "(.+)"/m)}`
  assert.ok(trunk in HASHES, `No hash of ${trunk}`)
  for (const [program, hashes] of Object.entries(HASHES)) {
    assert.ok([trunk, bindgen].includes(program), `${program} is no longer used`)
    for (const hash of Object.values(hashes)) assert.match(hash, /^[0-9a-f]{64}$/)
  }
})
