// Whether every limit and constant of the core is held by a check: each is moved
// a little up and a little down, and some test has to notice.

import { spawn, spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { basename, join, relative, resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { run, say } from './command.mjs'
import { excused } from './excused.mjs'
import { root } from './folders.mjs'
import { constants } from './rust-constants.mjs'

/** How far a number moves; a whole number moves by one. */
const SHARE = 0.02
/** Where the numbers in functions are constants too: tables of the trade, and units. */
const WHOLE = [/^catalogue\//, /^quantity\/unit\.rs$/]
/**
 * Tests that are no check of a value: `recorded` compares with recordings of our
 * own output, which say that a number has changed and not that it was right;
 * `agreement` compares our own pages with each other; `allocation` counts
 * allocations, and `properties` asks questions at random, so that what it catches
 * is another thing each time.
 */
const NO_CHECK = ['recorded', 'agreement', 'allocation', 'properties']
/** Tests in the order in which they run: the likeliest first, the slowest last. */
const FIRST = ['typical', 'limits']
const LAST = ['box_or_straight', 'handbook', 'tolerances']

export async function limits(args) {
  const { values } = parseArgs({
    args,
    options: { shard: { type: 'string', default: '1/1' }, only: { type: 'string', default: '' } },
  })
  const [shard, shards] = values.shard.split('/').map(Number)
  if (!(shard >= 1 && shard <= shards)) throw new Error(`--shard ${values.shard}: such as 2/8`)
  run('cargo', ['fetch', '--quiet', '--locked'])
  const copy = new Copy(`${shard}-of-${shards}`)
  const all = moves(copy.source)
  const asked = values.only.split(',')
  const mine = all.filter((move, i) => i % shards === shard - 1 && asked.some(name => move.name.includes(name)))
  const wanted = mine.filter(move => !move.reason)
  say(`Building the tests of the core, then ${wanted.length} of its ${all.length} moves (a few seconds each)`)
  const slowest = await copy.baseline()
  const kept = new Kept(join(copy.folder, 'done.json'), copy.hash())
  for (const [i, move] of wanted.entries()) {
    const outcome = kept.outcomes[move.key] ?? (await copy.outcome(move, slowest))
    kept.put(move.key, outcome)
    console.log(
      `${i + 1}/${wanted.length} ${outcome ? 'caught  ' : 'SURVIVED'} ${move.words}${outcome && `: ${outcome}`}`,
    )
  }
  report(mine, kept.outcomes)
}

/** Every move there is, those with a reason not to be made among them. */
function moves(source) {
  const files = readdirSync(source, { recursive: true }).filter(file => file.endsWith('.rs'))
  return files.sort().flatMap(file => {
    const text = readFileSync(join(source, file), 'utf8')
    const whole = WHOLE.some(pattern => pattern.test(file))
    return constants(text, whole).flatMap(constant =>
      moved(constant.text).map(to => {
        const name = `${file} ${constant.name}`
        const key = `${name} ${constant.index} ${to}`
        const words = `${file}:${constant.line} ${constant.name} ${constant.text} → ${to}`
        return { ...constant, file, name, to, key, words, reason: excused({ ...constant, file }) }
      }),
    )
  })
}

/** A literal a little higher and a little lower. */
function moved(literal) {
  const [, digits, suffix] = /^(.*?)(_?(?:f64|[iu](?:8|16|32|64|128|size)))?$/.exec(literal)
  const value = Number(digits.replaceAll('_', ''))
  const write = number => number + (suffix ?? '')
  if (/^[0-9_]+$/.test(digits) && !suffix?.includes('f')) {
    return (value === 0 ? [1] : [value + 1, value - 1]).map(write)
  }
  const away = value === 0 ? [SHARE, -SHARE] : [value * (1 + SHARE), value * (1 - SHARE)]
  return away.map(number => write(/[.e]/.test(String(number)) ? number : `${number}.0`))
}

/** A copy of the core to move things in, so that nothing of the reader's is touched. */
class Copy {
  constructor(name) {
    this.folder = resolve(process.env.CARGO_TARGET_DIR ?? join(root, 'target'), 'limits', name)
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
   * of it only what a move touches.
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

  /** What catches a move, in words; empty where nothing does. */
  async outcome(move, slowest) {
    const path = join(this.source, move.file)
    const text = readFileSync(path, 'utf8')
    writeFileSync(path, text.slice(0, move.at) + move.to + text.slice(move.at + move.text.length))
    try {
      const program = this.#build()
      if (!program) return 'it does not build'
      const most = 60_000 + 5 * slowest
      // What caught the last one is likely to catch its neighbour.
      const again = this.last ? await firstFailure(program, most, ['--exact', this.last]) : ''
      this.last = again || (await firstFailure(program, most))
      return this.last
    } finally {
      writeFileSync(path, text)
    }
  }

  /** Builds the one program of all tests; null where the compiler refuses. */
  #build() {
    const env = {
      ...process.env,
      CARGO_TARGET_DIR: join(this.folder, 'target'),
      CARGO_INCREMENTAL: '1',
      CARGO_PROFILE_TEST_DEBUG: '0',
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
    const tests = spawn(program, ['--test-threads', '2', ...only], { stdio: ['ignore', 'pipe', 'ignore'] })
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

function report(all, outcomes) {
  const made = all.filter(move => !move.reason)
  const survived = made.filter(move => !outcomes[move.key])
  const reasons = new Map()
  for (const { reason } of all) if (reason) reasons.set(reason, (reasons.get(reason) ?? 0) + 1)
  console.log(`\n${made.length} moves, ${made.length - survived.length} caught, ${survived.length} survived`)
  for (const move of survived) console.log(`  ${move.words}`)
  for (const [reason, count] of reasons) console.log(`${count} not made: ${reason}`)
  if (survived.length > 0) throw new Error('Not every limit is held')
}
