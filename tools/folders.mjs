// Where things are.

import { resolve } from 'node:path'
import { fileURLToPath } from 'node:url'

export const root = resolve(fileURLToPath(import.meta.url), '../..')
export const dist = resolve(root, 'dist')
export const generated = resolve(root, 'www/generated')
export const packages = resolve(root, 'node_modules')
/** What is installed for this project alone; it may be told to be elsewhere. */
export const tools = resolve(root, process.env.STAGEOHM_TOOLS ?? '.tools')
