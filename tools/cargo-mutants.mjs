// The program that lists mutants, at the version that was looked at.

import { output, run, say } from './command.mjs'
import { tools } from './folders.mjs'

const VERSION = '27.1.0'

export function ensureMutants() {
  if (output('cargo-mutants', ['mutants', '--version'])?.endsWith(` ${VERSION}`)) return
  say(`Building cargo-mutants ${VERSION} (about three minutes on two cores)`)
  run('cargo', ['install', 'cargo-mutants', '--version', VERSION, '--root', tools, '--locked', '--force'])
}
