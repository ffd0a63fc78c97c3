// The notices of the libraries: none is missing, and each has the words of its licence.

import assert from 'node:assert/strict'
import { readFileSync, readdirSync } from 'node:fs'
import { test } from 'node:test'
import { crates, grouped, notices, packages, parted, STANDARD } from '../../tools/notices.mjs'

test('every crate that the lock file names as one of the engine', () => {
  const names = crates().map(({ name }) => name)
  // What the manifests ask for by name.
  const asked = ['crate/Cargo.toml', 'www/bindings/Cargo.toml'].flatMap(file => {
    const text = readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8')
    const [, table] = /^\[dependencies\]\n([^]*?)\n\n/m.exec(text)
    return [...table.matchAll(/^([\w-]+) = (?!.*(?:optional|path))/gm)].map(([, name]) => name)
  })
  assert.ok(asked.length > 5)
  for (const name of asked) assert.ok(names.includes(name), name)
  // What only tests use is not passed on.
  assert.ok(!names.includes('proptest'))
})

test('what the engine says that it was compiled from', () => {
  const dist = new URL('../../dist/', import.meta.url)
  const engine = readdirSync(dist).find(name => name.endsWith('.wasm'))
  const text = readFileSync(new URL(engine, dist), 'latin1')
  const named = [...text.matchAll(/\/rust\/deps\/([\w-]+?)-\d/g)].map(([, name]) => name)
  assert.ok(named.length > 0)
  for (const name of named) assert.ok(STANDARD.includes(name), name)
})

test('what a library has of others, and texts of other kinds, whole', () => {
  const said = notices([])
  // By the licence of lexical-parse-float, for the feature `compact`.
  assert.match(said, /Copyright \(c\) 2009 The Go Authors[^]*Redistributions in binary form must reproduce/)
  assert.match(said, /hashbrown [\d.]+\n {2}Copyright \(c\) 2016 Amanieu d'Antras/)
  const text = 'Apache License\n\ncopyright notice that is included in the work\n\n(c) You must retain'
  assert.deepEqual(parted(text), { owners: [], body: text })
})

test('a package is found by what esbuild took of it', () => {
  const inputs = {
    'node_modules/preact/dist/preact.mjs': {},
    'node_modules/d3-scale/src/linear.js': {},
    'www/src/main.ts': {},
  }
  const found = packages([{ inputs }])
  assert.deepEqual(
    found.map(({ name }) => name),
    ['d3-scale', 'preact'],
  )
  for (const { owners, body } of found) {
    assert.match(owners.join(), /copyright/i)
    assert.match(body, /THE SOFTWARE IS PROVIDED|PROVIDED "AS IS"/)
  }
})

test('the same words stand once, whose they are always', () => {
  const words = 'Permission is hereby granted, free of charge, to\nany person'
  const groups = grouped([
    { name: 'a', version: '1', owners: ['Copyright A'], body: words },
    { name: 'b', version: '2', owners: ['Copyright B'], body: words.replace('\n', ' ') },
    { name: 'c', version: '3', owners: ['Copyright C'], body: null },
    { name: 'd', version: '4', owners: [], body: 'Other words' },
  ])
  assert.deepEqual(
    groups.map(({ of }) => of.map(({ name }) => name).join()),
    ['a,b,c', 'd'],
  )
})
