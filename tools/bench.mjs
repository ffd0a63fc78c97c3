// How fast the core computes, and how much a visitor has to fetch.

import { readdirSync, readFileSync, statSync } from 'node:fs'
import { basename, join } from 'node:path'
import { parseArgs } from 'node:util'
import { gzipSync } from 'node:zlib'
import { beBrief } from './brief.mjs'
import { build, oneFile } from './build.mjs'
import { run, say } from './command.mjs'
import { dist } from './folders.mjs'
import { python } from './python.mjs'
import { setUpBuild, setUpTests } from './setup.mjs'

export async function bench(args) {
  const { values } = parseArgs({ args, options: { brief: { type: 'boolean', default: false } } })
  if (values.brief) beBrief()
  setUpBuild()
  setUpTests()
  say('Measuring the core (about a minute, most of it compiling)')
  run('cargo', ['bench', '--locked', '--package', 'stageohm', '--bench', '*'])
  say('The same sweep in a reference solver (about a minute)')
  run(python, ['tests/reference/speed.py'])
  build()
  printSizes()
  // Only now, since what they work with was installed just above.
  const { printRooms } = await import('./bench-rooms.mjs')
  const { benchBrowser } = await import('./bench-browser.mjs')
  const { benchNetwork } = await import('./bench-network.mjs')
  const { benchStage } = await import('./bench-stage.mjs')
  const { benchTolerance } = await import('./bench-tolerance.mjs')
  await printRooms()
  await benchBrowser()
  await benchNetwork()
  await benchStage()
  await benchTolerance()
  // The server of the page would go on.
  process.exit()
}

/** What a first visit fetches until something can be done, with its goal in kB. */
const visits = [
  ['the start page can be read', /^(index\.html|all-.*\.css)$/],
  ['the start page can be used', /^(index\.html|all-.*\.css|main-.*\.js|page-words-.*|stageohm-web-.*\.js)$/],
  // The smallest, the most typical and the largest.
  ...['levels', 'pickup', 'box-or-straight'].map(id => [
    `${id} answers`,
    new RegExp(
      `^(index\\.html|all-.*\\.css|main-.*\\.js|page-words-.*|stageohm-web-.*\\.js|first-${id}-[0-9a-f]{16}\\..*)$`,
    ),
    150,
  ]),
  ['everything works without a network', new RegExp(`^(?!first-|${basename(oneFile)}$)`)],
]

function printSizes() {
  say('The sizes of the files, as they are and by gzip')
  const names = readdirSync(dist, { recursive: true }).filter(name => statSync(join(dist, name)).isFile())
  const files = names.sort().map(name => [name, readFileSync(join(dist, name))])
  const zipped = new Map(files.map(([name, bytes]) => [name, gzipSync(bytes)]))
  for (const [name, bytes] of files) {
    const goal = name === basename(oneFile) ? '  goal: 600 kB as it is' : ''
    console.log(`${name.padEnd(50)} ${kilobytes(bytes)} ${kilobytes(zipped.get(name))}${goal}`)
  }
  for (const [until, isNeeded, goal] of visits) {
    const fetched = [...zipped].filter(([name]) => isNeeded.test(name)).reduce((sum, [, { length }]) => sum + length, 0)
    const told = goal === undefined ? '' : `  goal: ${goal} kB`
    console.log(`${`fetched until ${until}`.padEnd(61)} ${kilobytes({ length: fetched })}${told}`)
  }
}

function kilobytes({ length }) {
  return `${(length / 1000).toFixed(1)} kB`.padStart(10)
}
