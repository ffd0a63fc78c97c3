// The Python packages that the reference checks compare with, in an environment
// of their own.

import { join } from 'node:path'
import { run, say } from './command.mjs'
import { root, tools } from './folders.mjs'
import { installOnce } from './stamp.mjs'

const folder = join(tools, 'python')

export const python = join(folder, 'bin/python')

export function ensurePython() {
  const requirements = join(root, 'tests/reference/requirements.txt')
  installOnce(requirements, join(folder, 'installed.txt'), () => {
    say('Installing the Python packages for the reference checks (about a minute)')
    run('python3', ['-m', 'venv', '--clear', folder])
    run(python, ['-m', 'pip', 'install', '--quiet', '--disable-pip-version-check', '--requirement', requirements])
  })
}
