// The page as it is served, and as one file.

import { homedir } from 'node:os'
import { join } from 'node:path'
import { run, say } from './command.mjs'
import { dist } from './folders.mjs'

export const oneFile = join(dist, 'stageohm.html')

/** The program that builds the page, its arguments and its environment. */
export const building = ['trunk', ['build', '--release'], withoutHome()]

export function build() {
  say('Building the page (about a minute the first time)')
  run(...building)
}

/** What could ever fail names its source file, and nobody's home folder belongs in a page. */
function withoutHome() {
  const cargo = process.env.CARGO_HOME ?? join(homedir(), '.cargo')
  // Flags are told apart by spaces.
  return cargo.includes(' ')
    ? {}
    : { CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUSTFLAGS: `--remap-path-prefix=${cargo}=cargo` }
}
