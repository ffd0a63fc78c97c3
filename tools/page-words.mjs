// The words of the page, in a folder for each language, written from the core:
// `page-words.json` has what the page itself says, the others what an engine says.

import { readFileSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { run } from './command.mjs'
import { generated } from './folders.mjs'

const folder = join(generated, 'words')
/** The language that stands in for the others. */
export const ENGLISH = 'en'

export function writeWords() {
  run('cargo', ['run', '--quiet', '--locked', '--package', 'stageohm', '--example', 'words', '--', folder])
}

/** The bytes of a file of words. */
export function wordsIn(name, language = ENGLISH) {
  return readFileSync(join(folder, language, name))
}

/** The names of all files of a language. */
export function wordFiles(language) {
  return readdirSync(join(folder, language)).sort()
}

/** What the page knows of each language: its code, its own name and so on; English first. */
export function languages() {
  return JSON.parse(wordsIn('page-words.json')).languages
}

/** The identifiers of all calculators. */
export function calculators() {
  return JSON.parse(wordsIn('page-words.json')).calculators.map(({ id }) => id)
}
