// After Trunk has built the page: what it cannot build itself.

import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { parse } from 'node-html-parser'
import { placeServiceWorker } from './offline.mjs'
import { writeOneFile } from './one-file.mjs'
import { placeWorker } from './worker.mjs'

const folder = process.env.TRUNK_STAGING_DIR
const file = join(folder, 'index.html')

const page = parse(readFileSync(file, 'utf8'))
placeWorker(page, folder)
placeIcon(page, folder)
writeFileSync(file, page.toString())
writeOneFile(page, folder)
placeServiceWorker(folder)

/** The icon within the page. One of lines and shapes would be drawn anew for every change of the address. */
function placeIcon(page, folder) {
  const icon = page.querySelector('link[rel=icon]')
  const drawing = readFileSync(join(folder, icon.getAttribute('href')))
  icon.setAttribute('href', `data:image/png;base64,${drawing.toString('base64')}`)
}
