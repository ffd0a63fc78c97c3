// The scripts that come once they are wanted, beside the page, under names that
// change with them, as Trunk names all others. Each has an element in the page
// that says where it is.

import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { generated } from './folders.mjs'

/** Pieces with words and a script of their own: those with a screen, and what makes an answer heard. */
export const screens = ['stage', 'fault', 'lesson', 'hear']

/** The elements of what the page runs itself; the worker is one for other threads. */
export const parts = ['more', 'search', ...screens, 'teach', 'notices'].map(name => `${name}-source`)

/** Writes them into the folder of the page, which then links to them there. */
export function placeLate(page, folder) {
  for (const id of ['worker-source', ...parts]) {
    const name = id.replace('-source', '')
    const script = readFileSync(join(generated, `${name}.js`))
    const named = `${name}-${createHash('sha256').update(script).digest('hex').slice(0, 16)}.js`
    writeFileSync(join(folder, named), script)
    page.querySelector(`#${id}`).setAttribute('href', `./${named}`)
  }
}
