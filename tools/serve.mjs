// Builds the page and serves it.

import { parseArgs } from 'node:util'
import { build, oneFile } from './build.mjs'
import { setUpBuild } from './setup.mjs'

export async function serve(args) {
  const { values } = parseArgs({
    args,
    options: { port: { type: 'string', default: '8080' }, 'build-only': { type: 'boolean' } },
  })
  setUpBuild()
  build()
  console.log(`\nThe page as one file: ${oneFile}`)
  if (values['build-only']) return
  // Only here, since the set-up has just brought what it is made of.
  const { host } = await import('./host.mjs')
  const address = await host(Number(values.port), '/').catch(error => {
    throw error.code === 'EADDRINUSE' ? new Error(`Port ${values.port} is taken: name another with --port.`) : error
  })
  console.log(`The page, until Ctrl+C: ${address}`)
}
