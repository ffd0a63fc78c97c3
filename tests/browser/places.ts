// Where the tests find the built page in its two forms.

import { fileURLToPath } from 'node:url'

/** Beside its files, under a path as a host of many pages would give it. */
export const address = 'http://127.0.0.1:4273/pages/stageohm/'

/** As one file on the disk. */
export const file = fileURLToPath(new URL('../../dist/stageohm.html', import.meta.url))
