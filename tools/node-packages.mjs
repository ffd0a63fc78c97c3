// The packages from npm, at the versions of the lock file.

import { join } from 'node:path'
import { run, say } from './command.mjs'
import { packages, root } from './folders.mjs'
import { installOnce } from './stamp.mjs'

export function ensureNodePackages() {
  installOnce(join(root, 'package-lock.json'), join(packages, '.installed.json'), () => {
    say('Installing the packages from npm (less than a minute)')
    run('npm', ['ci', '--no-progress'])
  })
}
