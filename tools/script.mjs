// How the sources of the page become one classic script.

import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { root } from './folders.mjs'

const { version } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8'))

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
  define: { STAGEOHM_VERSION: JSON.stringify(version) },
}

/**
 * The script of the page, and its pieces, which come later. Stage, finder and lessons
 * are not fetched before what stands below an answer is there, and take from it; so do
 * the trainer's ways from the lessons.
 */
export const page = [
  { name: 'main', entry: 'www/src/main.ts', lends: true },
  { name: 'search', entry: 'www/src/start/search-part.ts' },
  { name: 'more', entry: 'www/src/more.ts', lends: true },
  { name: 'stage', entry: 'www/src/stage/stage-part.ts' },
  { name: 'fault', entry: 'www/src/fault/fault-part.ts' },
  { name: 'hear', entry: 'www/src/hear/hear-part.ts' },
  { name: 'lesson', entry: 'www/src/lesson/part/lesson-part.ts', lends: true },
  { name: 'teach', entry: 'www/src/lesson/part/teach-part.ts' },
]
