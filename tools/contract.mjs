// The types and constants that the page shares with the core, written from the core.

import { mkdirSync } from 'node:fs'
import { run } from './command.mjs'
import { generated } from './folders.mjs'

export function writeContract() {
  mkdirSync(generated, { recursive: true })
  run('cargo', [
    ...['run', '--quiet', '--locked', '--package', 'stageohm', '--features', 'typescript', '--example', 'typescript'],
    ...['--', `${generated}/contract.ts`],
  ])
}
