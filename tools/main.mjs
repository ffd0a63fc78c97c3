// The commands of ./run.

import { advisories } from './advisories.mjs'
import { bench } from './bench.mjs'
import { fuzz } from './fuzz.mjs'
import { limits } from './limits.mjs'
import { mutants } from './mutants.mjs'
import { pictures } from './pictures.mjs'
import { serve } from './serve.mjs'
import { test } from './test.mjs'
import { words } from './words.mjs'

const commands = { serve, test, bench, limits, mutants, fuzz, words, advisories, pictures }

const [name, ...args] = process.argv.slice(2)
try {
  await commands[name](args)
} catch (error) {
  console.error(`\n${error.message}`)
  process.exitCode = 1
}
