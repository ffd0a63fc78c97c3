// Every word of the page stands in the catalogue, and every word there for the
// page is used: so that another language is one file, with nothing left over.

import { readFileSync, readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { expect, test } from '@playwright/test'

const root = fileURLToPath(new URL('../../', import.meta.url))
const read = (path: string) => readFileSync(root + path, 'utf8')
const source = readdirSync(`${root}www/src`, { encoding: 'utf8', recursive: true })
  .filter(name => /\.tsx?$/.test(name))
  .map(name => read(`www/src/${name}`))
  .join('\n')

// What stands in the page itself is put in its place by the build, which misses none.
const inCatalogue = [...read('crate/src/words/en.ftl').matchAll(/^page-(?!start-)([\w-]+) =/gm)].map(
  ([, key = '']) => key,
)

test('what the page says is in the catalogue', () => {
  const said = [...source.matchAll(/\bsay\('([\w-]+)'/g)].map(([, key]) => key)
  expect(said.length).toBeGreaterThan(50)
  expect(said.filter(key => !inCatalogue.includes(key ?? ''))).toEqual([])
})

test('what is in the catalogue for the page is said', () => {
  const whole = new Set([...source.matchAll(/['"`]([a-z][\w-]*)['"`]/g)].map(([, key]) => key))
  // A key may be put together: then its beginning stands before what is put in.
  const begun = [...source.matchAll(/`([a-z][\w-]*-)\$\{/g)].map(([, key = '']) => key)
  // Or its legend's: `decimal` begins `decimal-point`.
  const legends = [...source.matchAll(/\b(?:choices|named)\('([a-z-]+)'/g)].map(([, key]) => `${key}-`)
  const known = (key: string) => whole.has(key) || [...begun, ...legends].some(begin => key.startsWith(begin))
  expect(inCatalogue.filter(key => !known(key))).toEqual([])
})

test('no view has words of its own', () => {
  const words = [...source.matchAll(/>\s*([A-Z]?[a-z]+(?: [a-z]+)+[.!?]?)\s*<\//g)].map(([, text]) => text)
  expect(words).toEqual([])
})

test('the invented show has its words, and in English those of its file', () => {
  const show = JSON.parse(read('crate/examples/show.json')) as Record<string, unknown>
  const rows = ['gear', 'power', 'equipment', 'links', 'lines'].flatMap(list =>
    (show[list] as Record<string, string>[]).flatMap(row =>
      ['name', 'note', 'measured'].flatMap(field => {
        const key = `stage-invented-${list}-${row['id']}${field === 'name' ? '' : `-${field}`}`
        return field in row ? [[key, row[field]] as const] : []
      }),
    ),
  )
  const file = new Map<string, unknown>([
    ...rows,
    ...['name', 'notes'].map(key => [`stage-invented-${key}`, show[key]] as const),
    // Of which there is none in the file.
    ['stage-invented-words', 'invented'],
  ])
  const catalogue = new Map(
    [...read('crate/src/words/en.ftl').matchAll(/^page-(stage-invented-[\w-]+) = (.+)$/gm)].map(([, key, text]) => [
      key,
      text,
    ]),
  )
  expect(Object.fromEntries(catalogue)).toEqual(Object.fromEntries(file))
})
