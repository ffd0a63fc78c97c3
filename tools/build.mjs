// The page as it is served, and as one file.

import { join } from 'node:path'
import { run, say } from './command.mjs'
import { dist } from './folders.mjs'

export const oneFile = join(dist, 'stageohm.html')

export function build() {
  say('Building the page (about a minute the first time)')
  run('trunk', ['build', '--release'])
}
