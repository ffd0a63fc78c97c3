// A copy of the core with all its tests in one program, to change things in and
// see which test notices; nothing of the reader's is touched.

import { spawn, spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { basename, join, relative, resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { run, say } from './command.mjs'
import { root } from './folders.mjs'

/**
 * Tests that are no check of a value: `recorded` compares with recordings of our
 * own output, which say that a number has changed and not that it was right;
 * `agreement` compares our own pages with each other; `allocation` counts
 * allocations, and `properties` asks at random, so that what it catches is another
 * thing each time.
 */
const NO_CHECK = ['recorded', 'agreement', 'allocation', 'properties']
/** Tests in the order in which they run: the likeliest first, the slowest last. */
const FIRST = ['typical', 'limits']
const LAST = ['box_or_straight', 'handbook', 'tolerances']
/** So many of the tests that caught something in a file are tried first there. */
const LIKELY = 6

/** What is said of a change that the compiler refuses. */
export const UNBUILT = 'it does not build'

/**
 * Makes a shard of the changes that `list` finds in the copy, one after the other,
 * and says of each what catches it. A change has a name to ask for, a key to know
 * it again, and words. Gives the shard, and what became of each by its key.
 */
export async function tried(args, { folder, noun, shards: usual, time, list }) {
  const { values } = parseArgs({
    args,
    options: { shard: { type: 'string', default: `1/${usual}` }, only: { type: 'string', default: '' } },
  })
  const [shard, shards] = values.shard.split('/').map(Number)
  if (!(shard >= 1 && shard <= shards)) throw new Error(`--shard ${values.shard}: such as 2/8`)
  run('cargo', ['fetch', '--quiet', '--locked'])
  const copy = new Copy(`${folder}/${shard}-of-${shards}`)
  const all = list(copy)
  const asked = values.only.split(',')
  const mine = all.filter((it, i) => i % shards === shard - 1 && asked.some(name => it.name.includes(name)))
  const wanted = mine.filter(({ reason }) => !reason)
  say(`Building the tests of the core, then ${wanted.length} of its ${all.length} ${noun} (${time} each)`)
  const slowest = await copy.baseline()
  const kept = new Kept(join(copy.folder, 'done.json'), copy.hash())
  for (const [i, change] of wanted.entries()) {
    const outcome = kept.outcomes[change.key] ?? (await copy.outcome(change, slowest))
    kept.put(change.key, outcome)
    const said = `${outcome ? 'caught  ' : 'SURVIVED'} ${change.words}${outcome && `: ${outcome}`}`
    console.log(`${i + 1}/${wanted.length} ${said}`)
  }
  return { mine, outcomes: kept.outcomes }
}

/** The copy, in a folder of its own for each name. */
class Copy {
  /** By file, what caught the changes before: it is likely to catch the next. */
  #caught = new Map()

  constructor(name) {
    this.folder = resolve(process.env.CARGO_TARGET_DIR ?? join(root, 'target'), name)
    this.tree = join(this.folder, 'tree')
    this.source = join(this.tree, 'crate/src')
    rmSync(this.tree, { recursive: true, force: true })
    mkdirSync(this.tree, { recursive: true })
    for (const part of ['Cargo.lock', 'crate', 'tests']) {
      const needed = path => !['fuzz', 'browser', 'reference', 'node_modules'].includes(basename(path))
      cpSync(join(root, part), join(this.tree, part), { recursive: true, filter: needed })
    }
    const workspace = readFileSync(join(root, 'Cargo.toml'), 'utf8')
    writeFileSync(join(this.tree, 'Cargo.toml'), workspace.replace(/members = \[.*?\]/s, 'members = ["crate"]'))
    this.#joinTests()
  }

  /**
   * The tests from outside become modules of the core: one program to build, and
   * of it only what a change touches.
   */
  #joinTests() {
    const lib = join(this.source, 'lib.rs')
    const names = readdirSync(join(this.tree, 'crate/tests'))
      .filter(file => file.endsWith('.rs'))
      .map(file => basename(file, '.rs'))
    const order = [...FIRST, '', ...LAST]
    const place = name => (order.includes(name) ? order.indexOf(name) : FIRST.length)
    const joined = names
      .filter(name => !NO_CHECK.includes(name))
      .map(name => `#[cfg(test)]\n#[path = "../tests/${name}.rs"]\nmod outside_${place(name)}_${name};\n`)
    const itself = '#[cfg(test)]\nextern crate self as stageohm;\n'
    const text = readFileSync(lib, 'utf8')
    writeFileSync(lib, `#![recursion_limit = "256"]\n${text}\n${itself}${joined.join('')}`)
  }

  /** What the outcomes hold for: the core and its tests as they are. */
  hash() {
    const hash = createHash('sha256')
    for (const file of readdirSync(this.tree, { recursive: true }).sort()) {
      const path = join(this.tree, file)
      if (/\.(rs|ftl|lock)$/.test(file)) hash.update(relative(this.tree, path)).update(readFileSync(path))
    }
    return hash.digest('hex')
  }

  /** How long the tests take, in milliseconds, with everything in its place. */
  async baseline() {
    const program = this.#build()
    if (!program) throw new Error('The tests do not build')
    const start = Date.now()
    const failed = await firstFailure(program, Infinity)
    if (failed) throw new Error(`Failed with everything in its place: ${failed}`)
    return Date.now() - start
  }

  /**
   * What catches a change, in words; empty where nothing does. A change says in
   * which file, from and to which character, and what stands there instead.
   */
  async outcome({ file, from, to, text }, slowest) {
    const path = join(this.source, file)
    const before = readFileSync(path, 'utf8')
    writeFileSync(path, before.slice(0, from) + text + before.slice(to))
    try {
      const program = this.#build()
      if (!program) return UNBUILT
      const most = 60_000 + 5 * slowest
      const likely = this.#caught.get(file) ?? []
      const again = likely.length > 0 ? await firstFailure(program, most, ['--exact', ...likely]) : ''
      const caught = again || (await firstFailure(program, most))
      if (caught.includes('::')) this.#caught.set(file, [...new Set([caught, ...likely])].slice(0, LIKELY))
      return caught
    } finally {
      writeFileSync(path, before)
    }
  }

  /** Builds the one program of all tests; null where the compiler refuses. */
  #build() {
    const env = {
      ...process.env,
      CARGO_TARGET_DIR: join(this.folder, 'target'),
      CARGO_INCREMENTAL: '1',
      CARGO_PROFILE_TEST_DEBUG: '0',
      // All tests take a sixth of the time; a change builds as fast as without, as
      // long as units of code do not look into each other.
      CARGO_PROFILE_TEST_OPT_LEVEL: '1',
      CARGO_PROFILE_TEST_LTO: 'off',
      RUSTFLAGS: '-Awarnings',
    }
    const args = [
      'test',
      '--quiet',
      '--offline',
      '--package',
      'stageohm',
      '--lib',
      '--no-run',
      '--message-format',
      'json',
    ]
    const { stdout, status } = spawnSync('cargo', args, { cwd: this.tree, env, encoding: 'utf8', maxBuffer: 1e9 })
    if (status !== 0) return null
    const built = stdout.split('\n').filter(line => line.includes('"executable":"'))
    return JSON.parse(built.at(-1)).executable
  }
}

/** The first test that fails, empty where none does. What hangs or dies has failed too. */
function firstFailure(program, most, only = []) {
  return new Promise(done => {
    // Else a test that asks at random would note what it found among the reader's own tests.
    const env = { ...process.env, PROPTEST_DISABLE_FAILURE_PERSISTENCE: 'true' }
    const tests = spawn(program, ['--test-threads', '2', ...only], { env, stdio: ['ignore', 'pipe', 'ignore'] })
    let printed = ''
    const end = outcome => {
      clearTimeout(late)
      done(outcome)
      tests.kill('SIGKILL')
    }
    const late = most === Infinity ? undefined : setTimeout(() => end('it does not end'), most)
    tests.stdout.on('data', data => {
      printed += data
      const failed = /^test (\S+) .*\.\.\. FAILED$/m.exec(printed) ?? /^test (\S+) \.\.\. FAILED$/m.exec(printed)
      if (failed) end(failed[1])
    })
    tests.on('close', code => end(code === 0 ? '' : 'it breaks off'))
  })
}

/** Outcomes that hold as long as the tree does, so that a run may be taken up again. */
class Kept {
  constructor(file, hash) {
    const kept = existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {}
    this.file = file
    this.hash = hash
    this.outcomes = kept.hash === hash ? kept.outcomes : {}
  }

  put(key, outcome) {
    this.outcomes[key] = outcome
    writeFileSync(this.file, JSON.stringify({ hash: this.hash, outcomes: this.outcomes }))
  }
}
