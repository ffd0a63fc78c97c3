// The words of the page, in files of their own, written from the core.

import { join } from 'node:path'
import { run } from './command.mjs'
import { generated } from './folders.mjs'

export function writeWords() {
  const example = ['run', '--quiet', '--locked', '--package', 'stageohm', '--example', 'words']
  run('cargo', [...example, '--', join(generated, 'words')])
}
