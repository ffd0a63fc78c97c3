// Whatever is installed is held against a hash that stands here.

import assert from 'node:assert/strict'
import { readFileSync } from 'node:fs'
import { test } from 'node:test'

const read = file => readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8')

test('every package from npm has one', () => {
  const { packages } = JSON.parse(read('package-lock.json'))
  const others = Object.entries(packages).filter(([place]) => place !== '')
  assert.ok(others.length > 100)
  for (const [place, { integrity }] of others) assert.match(integrity ?? 'none', /^sha512-[\w+/]{86}==$/, place)
})

test('every crate from the registry has one', () => {
  const crates = read('Cargo.lock')
    .split('[[package]]')
    .filter(crate => crate.includes('\nsource = '))
  assert.ok(crates.length > 50)
  for (const crate of crates) assert.match(crate, /\nchecksum = "[0-9a-f]{64}"\n/)
})

test('every Python package has some, at the version that is asked for, and no address', () => {
  const text = read('tests/reference/requirements.txt').replaceAll('\\\n', '')
  const lines = text.split('\n').filter(line => /^[^\s#]/.test(line))
  for (const line of lines) assert.match(line, /^[\w-]+==[\w.]+(\s+--hash=sha256:[0-9a-f]{64})+\s*$/)
  const asked = read('tests/reference/requirements.in').match(/^[^\s#]+$/gm)
  assert.ok(asked.length > 0)
  for (const pin of asked)
    assert.ok(
      lines.some(line => line.startsWith(`${pin} `)),
      pin,
    )
  assert.doesNotMatch(text, /:\/\/|^--/m)
})
