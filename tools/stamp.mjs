// How what was installed remembers what it was installed from.

import { copyFileSync, existsSync, readFileSync } from 'node:fs'

/** Runs an installation unless the last one that succeeded was from the same list. */
export function installOnce(list, stamp, install) {
  if (existsSync(stamp) && readFileSync(stamp).equals(readFileSync(list))) return
  install()
  copyFileSync(list, stamp)
}
