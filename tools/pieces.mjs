// The page's own script and those that come later, its pieces. A module stands in
// one of them alone: what a piece needs of a script that is there before it, that
// script lends it, so that there is one copy of Preact, of the store, of whatever has
// a state.

import { relative, resolve } from 'node:path'
import { build } from 'esbuild'
import { root } from './folders.mjs'

/** Where scripts put what they lend, each module under its number. */
const SHELF = 'globalThis.stageohmLent'
/** What esbuild calls its own module that fills the shelf. */
const LENT = 'lent'

/**
 * Builds scripts in the order in which they come; those that `lend` are there before
 * all that follow. What is lent may bring more into a script, which may then be lent
 * too: so they are built until nothing changes.
 */
export async function buildPieces(options, scripts) {
  /** The scripts that lend modules, by these, and the number of each. */
  let lent = new Map()
  for (;;) {
    const asked = new Map(lent)
    const there = new Map()
    const built = []
    for (const { name, entry, lends } of scripts) {
      const numbers = new Map([...lent.keys()].map((file, number) => [file, number]))
      const own = [...lent].filter(([, lender]) => lender === entry).map(([file]) => [file, numbers.get(file)])
      const one = await build({
        ...options,
        entryPoints: [{ in: entry, out: name }],
        plugins: [...(options.plugins ?? []), lending(own), borrowing(there, asked, numbers)],
        inject: own.length > 0 ? [LENT] : [],
      })
      const lendable = lends ? [...modulesOf(one.metafile.outputs)].filter(file => !there.has(file)) : []
      lendable.forEach(file => there.set(file, entry))
      built.push(one)
    }
    if (asked.size === lent.size) return built
    lent = new Map([...asked].sort(([a], [b]) => (a < b ? -1 : 1)))
  }
}

/** The files of which something is in these scripts, as esbuild names them. */
export function modulesOf(outputs) {
  const inputs = Object.values(outputs).flatMap(({ inputs }) => Object.entries(inputs))
  return new Set(inputs.filter(([, { bytesInOutput }]) => bytesInOutput > 0).map(([file]) => file))
}

/** Puts these modules on the shelf before anything else runs. */
function lending(own) {
  const imports = own.map(([file, number]) => `import * as m${number} from ${JSON.stringify(resolve(root, file))}`)
  const named = own.map(([, number]) => `${number}: m${number}`).join(', ')
  const contents = [...imports, `Object.assign(${SHELF} ??= {}, { ${named} })`].join('\n')
  return {
    name: 'lending',
    setup(build) {
      build.onResolve({ filter: new RegExp(`^${LENT}$`) }, () => ({ path: LENT, namespace: LENT }))
      build.onLoad({ filter: new RegExp(`^${LENT}$`), namespace: LENT }, () => ({ contents, resolveDir: root }))
    },
  }
}

/** Takes from the shelf what is in a script that is there already, and notes what was taken. */
function borrowing(there, asked, numbers) {
  return {
    name: 'borrowing',
    setup(build) {
      build.onResolve({ filter: /.*/ }, async ({ path, pluginData, ...place }) => {
        if (pluginData === LENT || place.kind === 'entry-point') return undefined
        if (place.namespace === 'borrowed') return { path, namespace: 'shelf' }
        const found = await build.resolve(path, { ...place, pluginData: LENT })
        const file = relative(root, found.path)
        if (found.errors.length > 0 || !there.has(file)) return found
        asked.set(file, there.get(file))
        return { path: `${numbers.get(file) ?? -1}`, namespace: 'borrowed', sideEffects: false }
      })
      // What a module names is known when it runs alone, but for its default.
      build.onLoad({ filter: /./, namespace: 'borrowed' }, ({ path }) => ({
        contents: `export * from '${path}'\nexport default ${SHELF}[${path}].default`,
      }))
      build.onLoad({ filter: /./, namespace: 'shelf' }, ({ path }) => ({
        contents: `module.exports = ${SHELF}[${path}]`,
      }))
    },
  }
}
