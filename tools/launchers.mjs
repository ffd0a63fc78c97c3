// The scripts of the pages that learning systems start, as texts: the page puts them into
// the packages that it makes.

import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { build } from 'esbuild'
import { generated } from './folders.mjs'

const STANDARDS = ['scorm12', 'scorm2004', 'cmi5']

/** Writes them beside what else is generated. */
export async function writeLaunchers(options) {
  const texts = await Promise.all(
    STANDARDS.map(async name => {
      const { outputFiles } = await build({
        ...options,
        entryPoints: [`www/launch/${name}.ts`],
        sourcemap: false,
        write: false,
      })
      return [name, outputFiles[0].text]
    }),
  )
  writeFileSync(join(generated, 'launchers.json'), JSON.stringify(Object.fromEntries(texts)))
}
