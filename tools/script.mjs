// How the sources of the page become one classic script.

import { root } from './folders.mjs'

export const script = {
  absWorkingDir: root,
  entryNames: '[name]',
  bundle: true,
  alias: { 'd3-interpolate': './www/src/base/interpolate.ts' },
  format: 'iife',
  target: 'es2022',
  jsx: 'automatic',
  jsxImportSource: 'preact',
  logLevel: 'warning',
}
