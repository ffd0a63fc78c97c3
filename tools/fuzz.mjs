// Questions, texts, formulas, searches and translations at random, and all that the
// page reads, for as long as one likes: the same tests as in every run, with other
// seeds and more cases.

import { spawn } from 'node:child_process'
import { availableParallelism } from 'node:os'
import { parseArgs } from 'node:util'
import { output, say } from './command.mjs'
import { writeContract } from './contract.mjs'
import { root } from './folders.mjs'
import { ensureNodePackages } from './node-packages.mjs'

/** The tests of the core that ask at random. */
const RANDOM = ['questions', 'properties', 'translation', 'corpus']
/** Where those of the page are. */
const PAGE = 'tests/fuzz/'

export async function fuzz(args) {
  const { values } = parseArgs({
    args,
    options: {
      minutes: { type: 'string', default: '10' },
      from: { type: 'string', default: '2' },
      only: { type: 'string', default: '' },
      // A property and seed, so that a run ends soon after its time.
      cases: { type: 'string', default: '5000' },
    },
  })
  const [minutes, from, cases] = [values.minutes, values.from, values.cases].map(Number)
  if (!(minutes > 0) || ![from, cases].every(Number.isInteger)) {
    throw new Error('--minutes 30 --from 2 --cases 5000: such as these')
  }
  ensureNodePackages()
  say(`Asking at random for ${minutes} minutes, from seed ${from} on (its building takes a minute)`)
  const all = [...coreTests(cases), pageTest(cases)]
  const tests = all.filter(({ name }) => ['', name].includes(values.only))
  if (tests.length === 0) throw new Error(`--only ${values.only}: one of ${all.map(({ name }) => name).join(', ')}`)
  const end = Date.now() + 60_000 * minutes
  const turns = turnsOf(tests, from)
  const failed = []
  const worker = async () => {
    while (Date.now() < end && failed.length === 0) {
      const { test, seed } = turns.next().value
      const { code, said } = await ended(test, seed)
      test.runs++
      if (code === 0) continue
      console.log(test.failure(said))
      failed.push(test.again(seed))
    }
  }
  await Promise.all(Array.from({ length: availableParallelism() }, worker))
  for (const { name, runs } of tests) {
    console.log(
      `${name.padEnd(12)} ${runs} seeds from ${from} on, ${(runs * cases).toLocaleString('en')} cases a property`,
    )
  }
  if (failed.length > 0) {
    throw new Error(`Found something. To repeat it:\n${failed.join('\n')}\nWhat it came to goes into tests/corpus`)
  }
  console.log('\nNothing found')
}

/** Each test in turn with a seed, then all of them with the next. */
function* turnsOf(tests, from) {
  for (let seed = from; ; seed++) for (const test of tests) yield { test, seed }
}

/** The programs of the core's tests, at full speed with the checks of a debug build. */
function coreTests(cases) {
  const tests = RANDOM.flatMap(name => ['--test', name])
  const flags = [
    '--config',
    'profile.release.debug-assertions=true',
    '--config',
    'profile.release.overflow-checks=true',
  ]
  const printed = output('cargo', [
    ...['test', '--release', '--locked', '--package', 'stageohm', '--no-run', '--message-format', 'json'],
    ...[...tests, ...flags],
  ])
  if (printed === null) throw new Error('The tests do not build: see cargo test --release')
  const all = printed.split('\n').map(line => JSON.parse(line))
  const built = all.filter(({ executable, target }) => executable && RANDOM.includes(target.name))
  return built.map(({ executable, target: { name } }) => ({
    name,
    runs: 0,
    program: executable,
    args: ['--quiet', '--test-threads', '1'],
    folder: `${root}/crate`,
    env: seed => ({ PROPTEST_RNG_SEED: `${seed}`, PROPTEST_CASES: `${cases}`, RUST_BACKTRACE: '0' }),
    failure: said => said,
    again: seed =>
      `PROPTEST_RNG_SEED=${seed} PROPTEST_CASES=${cases} cargo test --release --package stageohm --test ${name} ${flags.join(' ')}`,
  }))
}

/** The tests of the page, which take the types and constants of the core as a build does. */
function pageTest(cases) {
  writeContract()
  return {
    name: 'page',
    runs: 0,
    program: process.execPath,
    args: ['--test', PAGE],
    folder: root,
    env: seed => ({ FUZZ_SEED: `${seed}`, FUZZ_RUNS: `${cases}` }),
    // Each test that failed, up to where it stands in the sources.
    failure: said => said.match(/^not ok[^]*?^ +code:/gm)?.join('\n') ?? said,
    again: seed => `FUZZ_SEED=${seed} FUZZ_RUNS=${cases} node --test ${PAGE}`,
  }
}

/** How a test ended with this seed, and what it said. */
function ended({ program, args, folder, env }, seed) {
  const run = spawn(program, args, { cwd: folder, env: { ...process.env, ...env(seed) } })
  let said = ''
  for (const stream of [run.stdout, run.stderr]) stream.on('data', data => (said += data))
  return new Promise(done => run.on('close', code => done({ code, said })))
}
