// How much each room of the page's sources weighs in the scripts of the page.

import { readFileSync } from 'node:fs'
import { basename, join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { say } from './command.mjs'
import { generated, root } from './folders.mjs'
import { buildPieces } from './pieces.mjs'
import { page, script } from './script.mjs'
import { styleAsText } from './style-as-text.mjs'

const WORDS = 'crate/src/words/en.ftl'

export async function printRooms() {
  say('What the rooms of the page weigh in each of its scripts, and all the words')
  const options = { ...script, outdir: generated, minify: true, write: false, metafile: true, plugins: [styleAsText] }
  for (const { metafile } of await buildPieces(options, page)) {
    for (const [file, { inputs }] of Object.entries(metafile.outputs)) printScript(basename(file), inputs)
  }
  const words = readFileSync(join(root, WORDS))
  print(WORDS, words.length, gzipSync(words).length)
}

function printScript(script, inputs) {
  const rooms = new Map()
  for (const [file, { bytesInOutput }] of Object.entries(inputs)) {
    const room = `${script}: ${roomOf(file)}`
    rooms.set(room, (rooms.get(room) ?? 0) + bytesInOutput)
  }
  for (const [room, bytes] of [...rooms].sort(([, a], [, b]) => b - a)) print(room, bytes)
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
