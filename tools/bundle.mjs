// Before Trunk reads the page: the contract's types from the Rust core, then the
// styles, and the scripts of the page and of its worker, each as one classic
// script, since a sandboxed frame and a file from disk both refuse modules.

import { writeFileSync } from 'node:fs'
import { build } from 'esbuild'
import { writeContract } from './contract.mjs'
import { generated } from './folders.mjs'
import { writeLaunchers } from './launchers.mjs'
import { notices } from './notices.mjs'
import { ENGLISH, languages, writeWords } from './page-words.mjs'
import { buildPieces } from './pieces.mjs'
import { page, script } from './script.mjs'
import { styleAsText } from './style-as-text.mjs'

const release = process.env.TRUNK_PROFILE === 'release'

writeContract()
writeWords()

const options = {
  ...script,
  outdir: generated,
  minify: release,
  sourcemap: release ? false : 'inline',
  metafile: true,
}

// They have to tell an old browser that it is one.
const first = await build({
  ...options,
  entryPoints: ['www/src/early.ts', 'www/src/boot.ts', 'www/src/unpack.ts'],
  target: 'es2015',
})
const beside = languages()
  .map(([code]) => code)
  .filter(code => code !== ENGLISH)
const others = await build({
  ...options,
  define: { ...options.define, LANGUAGES: JSON.stringify(beside) },
  entryPoints: [
    'www/styles/all.css',
    'www/src/engine/worker.ts',
    'www/offline/service-worker.ts',
    'www/element/stageohm-element.ts',
  ],
})
await writeLaunchers(options)
const pieces = await buildPieces({ ...options, plugins: [styleAsText] }, page)

// What others want said of what they wrote, to be read beside the page and on it.
const said = notices([first, others, ...pieces].map(({ metafile }) => metafile))
writeFileSync(`${generated}/notices.txt`, said)
writeFileSync(`${generated}/notices.js`, `globalThis.stageohmNotices=${JSON.stringify(said)}`)
