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
writeFileSync(file, page.toString())
writeOneFile(page, folder)
placeServiceWorker(folder)
