// Whether every limit and constant of the core is held by a check: each is moved
// a little up and a little down, and some test has to notice.

import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { run, say } from './command.mjs'
import { Copy, Kept } from './core-copy.mjs'
import { excused } from './excused.mjs'
import { constants } from './rust-constants.mjs'

/** How far a number moves; a whole number moves by one. */
const SHARE = 0.02
/** Where the numbers in functions are constants too: tables of the trade, and units. */
const WHOLE = [/^catalogue\//, /^quantity\/unit\.rs$/]

export async function limits(args) {
  const { values } = parseArgs({
    args,
    options: { shard: { type: 'string', default: '1/1' }, only: { type: 'string', default: '' } },
  })
  const [shard, shards] = values.shard.split('/').map(Number)
  if (!(shard >= 1 && shard <= shards)) throw new Error(`--shard ${values.shard}: such as 2/8`)
  run('cargo', ['fetch', '--quiet', '--locked'])
  const copy = new Copy(`limits/${shard}-of-${shards}`)
  const all = moves(copy.source)
  const asked = values.only.split(',')
  const mine = all.filter((move, i) => i % shards === shard - 1 && asked.some(name => move.name.includes(name)))
  const wanted = mine.filter(move => !move.reason)
  say(`Building the tests of the core, then ${wanted.length} of its ${all.length} moves (a few seconds each)`)
  const slowest = await copy.baseline()
  const kept = new Kept(join(copy.folder, 'done.json'), copy.hash())
  for (const [i, move] of wanted.entries()) {
    const outcome = kept.outcomes[move.key] ?? (await copy.outcome(change(move), slowest))
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

const change = move => ({ file: move.file, from: move.at, to: move.at + move.text.length, text: move.to })

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
