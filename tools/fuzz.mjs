// Questions, texts, formulas and translations at random, for as long as one likes:
// the same tests as in every run, with other seeds and more cases.

import { spawn } from 'node:child_process'
import { availableParallelism } from 'node:os'
import { parseArgs } from 'node:util'
import { output, say } from './command.mjs'
import { root } from './folders.mjs'

/** The tests that ask at random. */
const RANDOM = ['questions', 'properties', 'translation']
/** So many cases a seed, so that a run ends soon after its time. */
const CASES = 20_000

export async function fuzz(args) {
  const { values } = parseArgs({
    args,
    options: { minutes: { type: 'string', default: '10' }, from: { type: 'string', default: '2' } },
  })
  const [minutes, from] = [Number(values.minutes), Number(values.from)]
  if (!(minutes > 0) || !Number.isInteger(from)) throw new Error('--minutes 30 --from 2: such as these')
  say(`Asking at random for ${minutes} minutes, from seed ${from} on (its building takes a minute)`)
  const programs = built()
  const end = Date.now() + 60_000 * minutes
  let seed = from
  let runs = 0
  const failed = []
  const worker = async () => {
    while (Date.now() < end && failed.length === 0) {
      const own = seed++
      for (const program of programs) {
        if (await fails(program, own)) failed.push(`${program} with PROPTEST_RNG_SEED=${own} PROPTEST_CASES=${CASES}`)
        runs++
      }
    }
  }
  await Promise.all(Array.from({ length: availableParallelism() }, worker))
  if (failed.length > 0) throw new Error(`Found something: ${failed.join(', ')}`)
  console.log(`\nSeeds ${from} to ${seed - 1}: ${runs} runs of ${CASES} cases a property, nothing found`)
}

/** The programs of these tests, at full speed with the checks of a debug build. */
function built() {
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
  return all.filter(({ executable, target }) => executable && RANDOM.includes(target.name)).map(it => it.executable)
}

function fails(program, seed) {
  const env = { ...process.env, PROPTEST_RNG_SEED: `${seed}`, PROPTEST_CASES: `${CASES}`, RUST_BACKTRACE: '0' }
  const run = spawn(program, ['--quiet', '--test-threads', '1'], { cwd: `${root}/crate`, env })
  let said = ''
  for (const stream of [run.stdout, run.stderr]) stream.on('data', data => (said += data))
  return new Promise(done =>
    run.on('close', code => {
      if (code !== 0) console.log(said)
      done(code !== 0)
    }),
  )
}
