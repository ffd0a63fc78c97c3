// The page's own way to draw, for the script of the picture, which brings none:
// the page lends it before that script runs.

import type * as runtime from 'preact/jsx-runtime'

export type Jsx = Pick<typeof runtime, 'jsx' | 'jsxs' | 'Fragment'>

declare const stageohmJsx: Jsx

export const { jsx, jsxs, Fragment } = stageohmJsx
