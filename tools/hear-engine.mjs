// What plays two rigs: an engine of its own, since nobody who only reads needs it. It has
// glue of its own too; both come once somebody wants to hear.

import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { run } from './command.mjs'
import { TARGET, shrinking } from './first-engines.mjs'
import { root } from './folders.mjs'

const NAME = 'stageohm-hear'
const built = join(process.env.CARGO_TARGET_DIR ?? join(root, 'target'), 'hear')

/** Builds it; gives the engine and its glue, as it is. */
export function hearEngine() {
  const cargo = ['build', '--quiet', '--locked', '--lib', '--profile', 'page', '--target', TARGET]
  run('cargo', [...cargo, '--package', NAME], { CARGO_TARGET_DIR: built })
  const bare = join(built, TARGET, 'page', 'stageohm_hear.wasm')
  run('wasm-bindgen', ['--target', 'no-modules', '--no-typescript', '--out-name', NAME, '--out-dir', built, bare])
  const small = join(built, 'small.wasm')
  run('wasm-opt', [...shrinking(), '-o', small, join(built, `${NAME}_bg.wasm`)])
  return { engine: readFileSync(small), glue: readFileSync(join(built, `${NAME}.js`), 'utf8') }
}
