// The words of the page, in files of their own, written from the core: `page.json`
// has what the page itself says, the others what an engine says.

import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { run } from './command.mjs'
import { generated } from './folders.mjs'

const folder = join(generated, 'words')

export function writeWords() {
  run('cargo', ['run', '--quiet', '--locked', '--package', 'stageohm', '--example', 'words', '--', folder])
}

/** The bytes of a file of words. */
export function wordsIn(name) {
  return readFileSync(join(folder, name))
}

/** The identifiers of all calculators. */
export function calculators() {
  return JSON.parse(wordsIn('page.json')).calculators.map(({ id }) => id)
}
