// How much each room of the page's sources weighs in the script of the page.

import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { build } from 'esbuild'
import { say } from './command.mjs'
import { root } from './folders.mjs'
import { script } from './script.mjs'

const WORDS = 'crate/src/words/en.ftl'

export async function printRooms() {
  say('What the rooms of the page weigh in its script, and the words in the engine')
  const options = { ...script, minify: true, sourcemap: false, write: false, metafile: true }
  const { metafile } = await build({ ...options, entryPoints: ['www/src/main.ts'] })
  const rooms = new Map()
  for (const { inputs } of Object.values(metafile.outputs)) {
    for (const [file, { bytesInOutput }] of Object.entries(inputs)) {
      const room = roomOf(file)
      rooms.set(room, (rooms.get(room) ?? 0) + bytesInOutput)
    }
  }
  for (const [room, bytes] of [...rooms].sort(([, a], [, b]) => b - a)) print(room, bytes)
  const words = readFileSync(join(root, WORDS))
  print(WORDS, words.length, gzipSync(words).length)
}

function roomOf(file) {
  const [, own] = /^www\/src\/(?:(.*)\/)?[^/]+$/.exec(file) ?? []
  const [, library] = /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(file) ?? []
  return library ?? own ?? file.replace(/\/[^/]*$/, '')
}

function print(name, bytes, zipped) {
  const kilobytes = count => (count === undefined ? '' : `${(count / 1000).toFixed(1)} kB`).padStart(10)
  console.log(`${name.padEnd(44)} ${kilobytes(bytes)} ${kilobytes(zipped)}`)
}
