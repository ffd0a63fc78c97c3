// How fast the core computes, and how much a visitor has to fetch.

import { readdirSync, readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { build, oneFile } from './build.mjs'
import { run, say } from './command.mjs'
import { dist } from './folders.mjs'
import { python } from './python.mjs'
import { setUpBuild, setUpTests } from './setup.mjs'

export async function bench() {
  setUpBuild()
  setUpTests()
  say('Measuring the core (about a minute, most of it compiling)')
  run('cargo', ['bench', '--locked', '--package', 'stageohm', '--bench', '*'])
  say('The same sweep in a reference solver (about a minute)')
  run(python, ['tests/reference/speed.py'])
  build()
  printSizes()
  // Only now, since what it drives the browser with was installed just above.
  const { benchBrowser } = await import('./bench-browser.mjs')
  const { benchTolerance } = await import('./bench-tolerance.mjs')
  await benchBrowser()
  await benchTolerance()
  // The server of the page would go on.
  process.exit()
}

function printSizes() {
  say('The sizes of the files, as they are and by gzip')
  let first = 0
  for (const name of readdirSync(dist)) {
    const bytes = readFileSync(join(dist, name))
    const zipped = gzipSync(bytes)
    const goal = name === basename(oneFile) ? '  goal: 600 kB as it is' : ''
    if (name !== basename(oneFile)) first += zipped.length
    console.log(`${name.padEnd(44)} ${kilobytes(bytes)} ${kilobytes(zipped)}${goal}`)
  }
  console.log(`${'all that the served page fetches'.padEnd(55)} ${kilobytes({ length: first })}  goal: 150 kB`)
}

function kilobytes({ length }) {
  return `${(length / 1000).toFixed(1)} kB`.padStart(10)
}
