// What the words of a language lack beside the English ones.

import { spawnSync } from 'node:child_process'
import { environment } from './command.mjs'
import { root } from './folders.mjs'

export function words([option, code = '']) {
  if (option !== '--missing' || !/^[a-z]{2,3}$/.test(code)) throw new Error('./run words --missing CODE, such as es')
  const cargo = ['run', '--quiet', '--locked', '--package', 'stageohm', '--example', 'gaps', '--', code]
  const { status, error } = spawnSync('cargo', cargo, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...environment() },
  })
  if (error) throw error
  process.exitCode = status ?? 1
}
