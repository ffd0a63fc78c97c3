// The page's own script and those that come later, its pieces. A module stands in
// one of them alone: what a piece needs of the page's script that script lends it,
// so that there is one copy of Preact, of the store, of whatever has a state.

import { relative, resolve } from 'node:path'
import { build } from 'esbuild'
import { root } from './folders.mjs'

/** Where the page's script puts what it lends, each module at its place in the list of them. */
const SHELF = 'globalThis.stageohmLent'
/** The page's script, and what esbuild calls its own module that fills the shelf. */
const LENT = 'lent'

/**
 * Builds the script of the page and its pieces. What is lent may bring more into the
 * page's script, which may then be lent too: so they are built until nothing changes.
 */
export async function buildPieces(options, page, pieces) {
  let lent = []
  for (;;) {
    const main = await build({ ...options, entryPoints: [page], plugins: [lending(lent)], inject: [LENT] })
    const asked = new Set(lent)
    const late = await build({
      ...options,
      entryPoints: pieces,
      plugins: [borrowing(modulesOf(main.metafile.outputs), asked, lent)],
    })
    if (asked.size === lent.length) return [main, late]
    lent = [...asked].sort()
  }
}

/** The files of which something is in these scripts, as esbuild names them. */
export function modulesOf(outputs) {
  const inputs = Object.values(outputs).flatMap(({ inputs }) => Object.entries(inputs))
  return new Set(inputs.filter(([, { bytesInOutput }]) => bytesInOutput > 0).map(([file]) => file))
}

/** Puts these modules on the shelf before anything else runs. */
function lending(lent) {
  const imports = lent.map((file, index) => `import * as m${index} from ${JSON.stringify(resolve(root, file))}`)
  const contents = [...imports, `${SHELF} = [${lent.map((_, index) => `m${index}`)}]`].join('\n')
  return {
    name: 'lending',
    setup(build) {
      build.onResolve({ filter: new RegExp(`^${LENT}$`) }, () => ({ path: LENT, namespace: LENT }))
      build.onLoad({ filter: /.*/, namespace: LENT }, () => ({ contents, resolveDir: root }))
    },
  }
}

/** Takes from the shelf what is in the page's script, and notes what was taken. */
function borrowing(there, asked, lent) {
  return {
    name: 'borrowing',
    setup(build) {
      build.onResolve({ filter: /.*/ }, async ({ path, pluginData, ...place }) => {
        if (pluginData === LENT || place.kind === 'entry-point') return undefined
        if (place.namespace === LENT) return { path, namespace: 'shelf' }
        const found = await build.resolve(path, { ...place, pluginData: LENT })
        const file = relative(root, found.path)
        if (found.errors.length > 0 || !there.has(file)) return found
        asked.add(file)
        return { path: `${lent.indexOf(file)}`, namespace: LENT, sideEffects: false }
      })
      // What a module names is known when it runs alone, but for its default.
      build.onLoad({ filter: /./, namespace: LENT }, ({ path }) => ({
        contents: `export * from '${path}'\nexport default ${SHELF}[${path}].default`,
      }))
      build.onLoad({ filter: /./, namespace: 'shelf' }, ({ path }) => ({
        contents: `module.exports = ${SHELF}[${path}]`,
      }))
    },
  }
}
