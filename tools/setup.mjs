// What has to be there first. All of it can be asked for again at any time.

import { ensureNodePackages } from './node-packages.mjs'
import { ensurePython } from './python.mjs'
import { ensureRust, ensureRustChecks } from './rust.mjs'
import { ensureRustPrograms } from './rust-programs.mjs'
import { ensureSystemPrograms } from './system-programs.mjs'

/** All that the page is built with. */
export function setUpBuild() {
  ensureRust()
  ensureNodePackages()
  ensureRustPrograms()
}

/** All that the tests take besides. */
export function setUpTests() {
  ensureSystemPrograms()
  ensureRustChecks()
  ensurePython()
}
