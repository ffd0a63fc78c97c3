// The address of the finder of faults: what is written comes back, and what is damaged
// is read as far as it goes, with the rest told.

import assert from 'node:assert/strict'
import { test } from 'node:test'
import fc from 'fast-check'
import { pageWith } from '../fuzz/page.mjs'

const page = pageWith('fault/address.ts', 'screen/link.ts')()
const { readSearch, writeSearch, NOTHING } = page.address
const { readPlace, writeFault } = page.link

/** Through the whole address and back. */
function through(search) {
  const place = readPlace(writeFault(writeSearch(search)))
  assert.equal(place.kind, 'fault')
  return readSearch(place.rest)
}

const id = fc.stringMatching(/^[a-z][a-z0-9-]{0,12}$/)
const text = fc.string({ maxLength: 12, unit: 'grapheme' })
const search = fc
  .record({
    danger: fc.boolean(),
    symptom: id,
    scope: fc.oneof(fc.constant(''), id),
    texts: fc.dictionary(fc.stringMatching(/^[a-z][a-z_0-9]{0,12}$/), text, { maxKeys: 5, noNullPrototype: true }),
    done: fc.uniqueArray(fc.record({ step: id, outcome: fc.option(id) }, { noNullPrototype: true }), {
      selector: ({ step }) => step,
    }),
    now: fc.oneof(fc.constant(''), id),
    times: fc.option(
      fc.dictionary(id, fc.constantFrom(0.25, 0.5, 2, 4, 1000), { minKeys: 1, maxKeys: 4, noNullPrototype: true }),
    ),
    feet: fc.boolean(),
  })
  .map(({ feet, ...one }) => ({
    ...one,
    settings: { ...NOTHING.settings, length: feet ? 'foot' : 'metre' },
    spare: [],
  }))

test('a search comes back from its address as it was', () => {
  fc.assert(
    fc.property(search, one => {
      assert.deepEqual(through(one), one)
    }),
  )
})

test('the address is the one that is promised', () => {
  const { settings } = NOTHING
  const done = [
    { step: 'mute', outcome: 'gone' },
    { step: 'lift', outcome: 'less' },
    { step: 'thru', outcome: null },
  ]
  const texts = { lead_length: '20 ft' }
  const one = { ...NOTHING, symptom: 'hum', scope: 'one', texts, settings: { ...settings, length: 'foot' }, done }
  assert.equal(writeSearch(one), '/hum.one/lead_length=20_ft?did=mute:gone,lift:less,thru:?&in=foot')
  assert.equal(writeSearch({ ...NOTHING, symptom: 'hum' }), '/hum')
  assert.equal(writeSearch(NOTHING), '')
})

test('what is damaged is told, and the rest is read', () => {
  const read = readSearch('/hum.one/lead_length=6_m&loose?did=mute:gone,mute:same,Lift,thru:?&odds=loop:2,coil:-1&x=1')
  assert.deepEqual(read.spare, ['loose', 'x=1', 'did=mute:same', 'did=Lift', 'odds=coil:-1'])
  assert.deepEqual(read.texts, { lead_length: '6 m' })
  assert.deepEqual(read.times, { loop: 2 })
  assert.deepEqual(read.done, [
    { step: 'mute', outcome: 'gone' },
    { step: 'thru', outcome: null },
  ])
})

test('nothing that stands in an address makes it fail', () => {
  const pieces = [
    '/',
    '?',
    '&',
    '=',
    ':',
    ',',
    '.',
    '%E0%A4',
    'did=',
    'odds=',
    'in=feet',
    'now=',
    'danger',
    'hum',
    '<b>',
  ]
  const damaged = fc.array(fc.oneof(fc.constantFrom(...pieces), fc.string({ maxLength: 4 }))).map(all => all.join(''))
  fc.assert(
    fc.property(damaged, rest => {
      const read = readSearch(rest)
      // And what was made of it can be written and read again.
      assert.deepEqual(through({ ...read, spare: [] }), { ...read, spare: [] })
    }),
  )
})
