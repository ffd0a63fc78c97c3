// Rust's own parts: what the compiler needs for the browser, and the crates.

import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { output, run, say } from './command.mjs'

const TARGET = 'wasm32-unknown-unknown'

/** The target, and the crates at the versions of the lock file. */
export function ensureRust() {
  const sysroot = output('rustc', ['--print', 'sysroot'])
  if (!existsSync(join(sysroot, 'lib/rustlib', TARGET))) {
    say(`Adding Rust's target ${TARGET} (less than a minute)`)
    needRustup(`the target ${TARGET}`)
    run('rustup', ['target', 'add', TARGET])
  }
  run('cargo', ['fetch', '--quiet', '--locked'])
}

/** What only the tests ask of Rust. */
export function ensureRustChecks() {
  for (const [component, command] of [
    ['rustfmt', 'fmt'],
    ['clippy', 'clippy'],
  ]) {
    if (output('cargo', [command, '--version']) !== null) continue
    say(`Adding Rust's component ${component}`)
    needRustup(`the component ${component}`)
    run('rustup', ['component', 'add', component])
  }
}

function needRustup(part) {
  if (output('rustup', ['--version']) === null) {
    throw new Error(`Rust lacks ${part}, and there is no rustup to add it: install Rust by rustup, or add it yourself.`)
  }
}
