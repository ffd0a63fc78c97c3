// Where the tests find the built page in its two forms.

import { fileURLToPath, pathToFileURL } from 'node:url'

const port = process.env['STAGEOHM_TEST_PORT'] ?? '4273'

/** Beside its files, under a path as a host of many pages would give it. */
export const address = `http://127.0.0.1:${port}/pages/stageohm/`

/** As one file on the disk. */
export const file = fileURLToPath(new URL('../../dist/stageohm.html', import.meta.url))

export const forms = { served: address, 'one file': pathToFileURL(file).href }

export type Form = keyof typeof forms

export const allForms = Object.keys(forms) as Form[]
