// How much of the core its tests would notice: cargo-mutants lists small faults that
// a hand could make (an operator turned, a function that returns nothing), each is
// made, and some test has to fail.

import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { ensureMutants } from './cargo-mutants.mjs'
import { output } from './command.mjs'
import { tried, UNBUILT } from './core-copy.mjs'

export async function mutants(args) {
  ensureMutants()
  const { mine, outcomes } = await tried(args, {
    folder: 'mutants',
    noun: 'mutants',
    shards: 12,
    time: 'about five seconds',
    list: listed,
  })
  report(mine, outcomes)
}

/** Every mutant, in an order that has nothing to do with where they stand, so that a shard is a sample. */
function listed({ tree, source }) {
  const printed = output('cargo', ['mutants', '--list', '--json', '--dir', tree, '--package', 'stageohm'])
  if (printed === null) throw new Error('cargo mutants lists nothing')
  const texts = new Map()
  const all = JSON.parse(printed).map(({ file, span, name, replacement }) => {
    const path = join(tree, file)
    if (!texts.has(path)) texts.set(path, lines(readFileSync(path, 'utf8')))
    const [from, to] = [span.start, span.end].map(place => texts.get(path)(place))
    const own = relative(source, path)
    const named = name.replace(file, own)
    return { file: own, name: named, key: named, words: named, from, to, text: replacement }
  })
  const order = ({ name }) => createHash('sha256').update(name).digest('hex')
  return all.sort((a, b) => (order(a) < order(b) ? -1 : 1))
}

/** Where a line and column are in a text; columns are counted in whole characters. */
function lines(text) {
  const starts = [0]
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1)
  return ({ line, column }) => {
    const start = starts[line - 1]
    return start + [...text.slice(start, starts[line])].slice(0, column - 1).join('').length
  }
}

function report(all, outcomes) {
  const made = all.filter(({ name }) => outcomes[name] !== UNBUILT)
  const survived = made.filter(({ name }) => !outcomes[name])
  const share = some => {
    const left = some.filter(({ name }) => !outcomes[name]).length
    return `${some.length - left} of ${some.length} caught, ${(100 * (1 - left / some.length)).toFixed(0)} %`
  }
  console.log('')
  for (const mutant of survived) console.log(`survived: ${mutant.name}`)
  const roomOf = ({ file }) => file.split('/')[0]
  for (const room of [...new Set(made.map(roomOf))].sort()) {
    console.log(`${room.padEnd(12)} ${share(made.filter(it => roomOf(it) === room))}`)
  }
  console.log(`${'all'.padEnd(12)} ${share(made)}; ${all.length - made.length} more do not build`)
}
