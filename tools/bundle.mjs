// Before Trunk reads the page: the contract's types from the Rust core, then the
// styles, and the scripts of the page and of its worker, each as one classic
// script, since a sandboxed frame and a file from disk both refuse modules.

import { mkdirSync } from 'node:fs'
import { build } from 'esbuild'
import { run } from './command.mjs'
import { generated, root } from './folders.mjs'

const release = process.env.TRUNK_PROFILE === 'release'

mkdirSync(generated, { recursive: true })
run('cargo', [
  ...['run', '--quiet', '--locked', '--package', 'stageohm', '--features', 'typescript', '--example', 'typescript'],
  ...['--', `${generated}/contract.ts`],
])

const options = {
  absWorkingDir: root,
  entryNames: '[name]',
  outdir: generated,
  bundle: true,
  alias: { 'd3-interpolate': './www/src/interpolate.ts' },
  format: 'iife',
  target: 'es2022',
  jsx: 'automatic',
  jsxImportSource: 'preact',
  minify: release,
  sourcemap: release ? false : 'inline',
  logLevel: 'warning',
}

// They have to tell an old browser that it is one.
await build({ ...options, entryPoints: ['www/src/early.ts', 'www/src/first.ts'], target: 'es2015' })
await build({
  ...options,
  entryPoints: [
    'www/all.css',
    'www/src/main.ts',
    'www/src/worker.ts',
    'www/offline/service-worker.ts',
    'www/element/stageohm-element.ts',
  ],
})
