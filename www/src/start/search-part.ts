// What the script of the search leaves to the page: see search.ts.

import { makeSearch } from './search'

Object.assign(globalThis, { stageohmSearch: makeSearch })
