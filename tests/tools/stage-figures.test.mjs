// How figures of a row are told against their limits.

import assert from 'node:assert/strict'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { test } from 'node:test'
import { root } from '../../tools/folders.mjs'
import { pageWith } from '../fuzz/page.mjs'

/** The words of the page as the catalogue has them. */
function words() {
  const text = readFileSync(join(root, 'crate/src/words/en.ftl'), 'utf8')
  return Object.fromEntries([...text.matchAll(/^page-([\w-]+) = (.*)$/gm)].map(([, key, said]) => [key, said]))
}

const { amount } = pageWith('stage/show/amount.ts')()
const SETTINGS = { decimal: 'point', length: 'metres', mains: '50', language: 'en' }
const NBSP = '\u00a0'

test('a shortfall is not rounded away', () => {
  const told = (value, limit) => amount.distance(value, SETTINGS, limit)
  assert.equal(told(59.96, 60), `59.96${NBSP}dB`)
  assert.equal(told(59.9996, 60), `59.9996${NBSP}dB`)
  assert.equal(told(59.9, 60), `59.9${NBSP}dB`)
  // What keeps its limit is as near to it as it is.
  assert.equal(told(60.04, 60), `60.0${NBSP}dB`)
  assert.equal(amount.amount(0.004, 'decibel', 'dB', SETTINGS, 0), `0.004${NBSP}dB`)
  assert.equal(amount.amount(9.999, 'metre', 'm', SETTINGS, 10), `9.999${NBSP}m`)
})

test('the words of figures are there', () => {
  const said = words()
  for (const key of ['stage-figure-above', 'stage-gain-loss', 'stage-gain-loss-bass']) assert.ok(said[key], key)
})
