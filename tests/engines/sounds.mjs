// The sounds of the browser tests, which are in TypeScript.

import { buildSync } from 'esbuild'
import { root } from '../../tools/folders.mjs'

const { outputFiles } = buildSync({
  absWorkingDir: root,
  entryPoints: ['tests/browser/sounds.ts'],
  format: 'esm',
  write: false,
})

export const { oddHum, wav } = await import(`data:text/javascript,${encodeURIComponent(outputFiles[0].text)}`)
