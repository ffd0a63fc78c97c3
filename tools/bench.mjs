// How fast the core computes, and how much a visitor has to fetch.

import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { benchBrowser } from './bench-browser.mjs'
import { build } from './build.mjs'
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
  say('The sizes of the files, as they are and by gzip')
  for (const name of readdirSync(dist)) {
    const bytes = readFileSync(join(dist, name))
    console.log(`${name.padEnd(44)} ${kilobytes(bytes)} ${kilobytes(gzipSync(bytes))}`)
  }
  say('The page in a browser (about a minute)')
  await benchBrowser()
  // The server of the page would go on.
  process.exit()
}

function kilobytes({ length }) {
  return `${(length / 1000).toFixed(1)} kB`.padStart(10)
}
