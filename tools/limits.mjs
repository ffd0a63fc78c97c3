// Whether every limit and constant of the core is held by a check: each is moved
// a little up and a little down, and some test has to notice.

import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { tried } from './core-copy.mjs'
import { excused } from './excused.mjs'
import { constants } from './rust-constants.mjs'

/** How far a number moves; a whole number moves by one. */
const SHARE = 0.02
/** Where the numbers in functions are constants too: tables of the trade, and units. */
const WHOLE = [/^catalogue\//, /^quantity\/unit\.rs$/]

export async function limits(args) {
  const list = ({ source }) => moves(source)
  const { mine, outcomes } = await tried(args, {
    folder: 'limits',
    noun: 'moves',
    shards: 1,
    time: 'a few seconds',
    list,
  })
  report(mine, outcomes)
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
        const place = { from: constant.at, to: constant.at + constant.text.length, text: to }
        return { file, name, key, words, ...place, reason: excused({ ...constant, file }) }
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
