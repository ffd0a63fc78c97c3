// How fast the core computes, and how much a visitor has to fetch.

import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { build } from './build.mjs'
import { run, say } from './command.mjs'
import { dist } from './folders.mjs'
import { setUpBuild } from './setup.mjs'

export function bench() {
  setUpBuild()
  say('Measuring the core (about a minute, most of it compiling)')
  run('cargo', ['bench', '--locked', '--package', 'stageohm', '--bench', '*'])
  build()
  say('The sizes of the files, as they are and by gzip')
  for (const name of readdirSync(dist)) {
    const bytes = readFileSync(join(dist, name))
    console.log(`${name.padEnd(44)} ${kilobytes(bytes)} ${kilobytes(gzipSync(bytes))}`)
  }
}

function kilobytes({ length }) {
  return `${(length / 1000).toFixed(1)} kB`.padStart(10)
}
