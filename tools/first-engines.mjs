// The small engines: the same crate once for each calculator, with nothing in it
// but that one. On a first visit it answers a link while the whole engine is on its
// way. They are built side by side, and one whose sources have not changed is kept.

import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { copyFileSync, existsSync, mkdirSync, readFileSync, readdirSync, statSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import { join } from 'node:path'
import { parse } from 'node-html-parser'
import { environment, output } from './command.mjs'
import { root } from './folders.mjs'
import { calculators } from './page-words.mjs'

export const TARGET = 'wasm32-unknown-unknown'
/** As Trunk calls the whole engine, whose glue serves them all. */
const NAME = 'stageohm-web'
const built = join(process.env.CARGO_TARGET_DIR ?? join(root, 'target'), 'first')

/** Builds what is not there yet; gives the path of each by its calculator. */
export async function firstEngines() {
  mkdirSync(built, { recursive: true })
  const sources = hashOfSources()
  const engines = calculators().map(id => [id, join(built, `${id}-${sources}.wasm`)])
  const missing = engines.filter(([, path]) => !existsSync(path))
  const lanes = Array.from({ length: availableParallelism() }, async (_, lane) => {
    for (let next; (next = missing.shift()) !== undefined;) await build(...next, join(built, `lane-${lane}`))
  })
  await Promise.all(lanes)
  return new Map(engines)
}

async function build(id, path, lane) {
  const cargo = ['build', '--quiet', '--locked', '--lib', '--profile', 'page', '--target', TARGET]
  await run('cargo', [...cargo, '--package', 'stageohm-web'], { CARGO_TARGET_DIR: lane, STAGEOHM_CALCULATOR: id })
  const bare = join(lane, TARGET, 'page', 'stageohm_web.wasm')
  const bound = ['--target', 'no-modules', '--no-typescript', '--out-name', NAME]
  await run('wasm-bindgen', [...bound, '--out-dir', lane, bare])
  const small = join(lane, 'small.wasm')
  await run('wasm-opt', [...shrinking(), '-o', small, join(lane, `${NAME}_bg.wasm`)])
  copyFileSync(small, path)
}

/** As Trunk has the whole engine made smaller. */
export function shrinking() {
  const page = parse(readFileSync(join(root, 'www', 'index.html'), 'utf8'))
  const engine = page.querySelector('link[rel=rust]')
  const [level, more] = ['data-wasm-opt', 'data-wasm-opt-params'].map(name => engine.getAttribute(name))
  return [`-O${level}`, ...more.split(' ')]
}

/** A name for all that an engine is built of and by. */
function hashOfSources() {
  const hash = createHash('sha256')
  const files = [
    'Cargo.toml',
    'Cargo.lock',
    'crate/Cargo.toml',
    'www/bindings/Cargo.toml',
    'www/index.html',
    'tools/first-engines.mjs',
  ]
  for (const file of [...files, ...filesIn('crate/src'), ...filesIn('www/bindings/src')]) {
    // Their words are not in them.
    if (file.endsWith('.ftl')) continue
    hash
      .update(file)
      .update('\0')
      .update(readFileSync(join(root, file)))
  }
  for (const program of ['rustc', 'wasm-bindgen', 'wasm-opt']) hash.update(output(program, ['--version']) ?? '')
  return hash.digest('hex').slice(0, 16)
}

function filesIn(folder) {
  return readdirSync(join(root, folder))
    .sort()
    .map(name => `${folder}/${name}`)
    .flatMap(path => (statSync(join(root, path)).isDirectory() ? filesIn(path) : [path]))
}

function run(program, args, env = {}) {
  return new Promise((done, failed) => {
    const child = spawn(program, args, { cwd: root, stdio: 'inherit', env: { ...environment(), ...env } })
    child.on('error', failed)
    child.on('exit', code => (code === 0 ? done() : failed(new Error(`${program} ended with ${code}`))))
  })
}
