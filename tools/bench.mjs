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
  const { benchTolerance } = await import('./bench-tolerance.mjs')
  await printRooms()
  await benchBrowser()
  await benchTolerance()
  // The server of the page would go on.
  process.exit()
}

/** What a first visit fetches, in the order in which it is needed. */
const stages = [
  ['the start page can be read', name => /^(index\.html|all-.*\.css)$/.test(name)],
  ['one calculator answers', name => /^(main-.*\.js|stageohm-web-.*\.(js|wasm))$/.test(name)],
  ['everything works without a network', name => name !== basename(oneFile)],
]

function printSizes() {
  say('The sizes of the files, as they are and by gzip')
  const names = readdirSync(dist, { recursive: true }).filter(name => statSync(join(dist, name)).isFile())
  const left = new Map(names.sort().map(name => [name, readFileSync(join(dist, name))]))
  let fetched = 0
  for (const [until, isNeeded] of stages) {
    for (const [name, bytes] of left) {
      if (!isNeeded(name)) continue
      const zipped = gzipSync(bytes)
      fetched += zipped.length
      left.delete(name)
      console.log(`${name.padEnd(44)} ${kilobytes(bytes)} ${kilobytes(zipped)}`)
    }
    const goal = until === 'one calculator answers' ? '  goal: 150 kB' : ''
    console.log(`${`fetched until ${until}`.padEnd(55)} ${kilobytes({ length: fetched })}${goal}`)
  }
  for (const [name, bytes] of left) {
    console.log(`${name.padEnd(44)} ${kilobytes(bytes)} ${kilobytes(gzipSync(bytes))}  goal: 600 kB as it is`)
  }
}

function kilobytes({ length }) {
  return `${(length / 1000).toFixed(1)} kB`.padStart(10)
}
