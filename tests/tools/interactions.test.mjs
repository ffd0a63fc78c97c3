// Answers as the data models of learning systems have them: their types, their limits, and
// right orders by identifiers.

import assert from 'node:assert/strict'
import { test } from 'node:test'
import fc from 'fast-check'
import { pageWith } from '../fuzz/page.mjs'

const page = pageWith('../launch/interaction.ts', '../launch/named.ts')()
const { interaction, interaction12 } = page.interaction
const { decimal } = page.named

const none = { step: 1, title: '', response: '', right: '', number: null, order: null, credit: 1, points: 1 }
const named = ids => ids.map(id => ({ id, name: `Way ${id}` }))

test('what is put in order is sequencing everywhere, by identifiers', () => {
  const ways = named(['line', 'di-active', 'di-passive'])
  const order = { ways, said: ['di-passive', 'line', 'di-active'], right: [['di-active'], ['di-passive'], ['line']] }
  assert.deepEqual(interaction12({ ...none, order }), {
    type: 'sequencing',
    response: 'c,a,b',
    patterns: ['b,c,a'],
  })
  assert.deepEqual(interaction({ ...none, order }), {
    type: 'sequencing',
    response: 'di-passive[,]line[,]di-active',
    patterns: ['di-active[,]di-passive[,]line'],
  })
})

/** Ways with ties, and an order that was said. */
const orders = fc
  .uniqueArray(fc.stringMatching(/^[a-z\d][a-z\d_-]{0,20}$/), { minLength: 2, maxLength: 60 })
  .chain(ids =>
    fc.record({
      ids: fc.constant(ids),
      said: fc.shuffledSubarray(ids, { minLength: ids.length }),
      right: fc.shuffledSubarray(ids, { minLength: ids.length }),
      cuts: fc.array(fc.boolean(), { minLength: ids.length, maxLength: ids.length }),
    }),
  )
  .map(({ ids, said, right, cuts }) => {
    const tiers = []
    right.forEach((id, at) => (at === 0 || cuts[at] ? tiers.push([id]) : tiers.at(-1).push(id)))
    return { ways: named(ids), said, right: tiers }
  })

test('patterns are right orders, of each kind that is tied, and never too many or too long', () => {
  fc.assert(
    fc.property(orders, order => {
      const { type, response, patterns } = interaction({ ...none, order })
      assert.equal(type, 'sequencing')
      assert.deepEqual(response.split('[,]'), order.said)
      assert.ok(patterns.length >= 1 && patterns.length <= 5)
      assert.equal(new Set(patterns).size, patterns.length)
      for (const pattern of patterns) {
        const ids = pattern.split('[,]')
        for (const tied of order.right) assert.deepEqual(ids.splice(0, tied.length).sort(), [...tied].sort())
        assert.deepEqual(ids, [])
      }
      const old = interaction12({ ...none, order, response: 'in words', right: 'right words' })
      if (order.ways.length > 36) {
        assert.deepEqual(old, { type: 'fill-in', response: 'in words', patterns: ['right words'] })
        return
      }
      assert.equal(old.type, 'sequencing')
      for (const text of [old.response, ...old.patterns]) {
        assert.match(text, /^[a-z\d](,[a-z\d])*$/)
        assert.ok(text.length <= 255)
        assert.equal(new Set(text.split(',')).size, order.ways.length)
      }
      assert.equal(old.patterns.length, patterns.length)
      assert.equal(old.patterns.includes(old.response), patterns.includes(response))
    }),
  )
})

test('a number has the range of full credit where there is one', () => {
  const of = right => ({ ...none, number: { said: 4.7e-9, right } })
  assert.deepEqual(interaction(of([5e-9, 4e-9, 6e-9])), {
    type: 'numeric',
    response: '0.0000000047',
    patterns: ['0.000000004[:]0.000000006'],
  })
  assert.deepEqual(interaction(of([5])).patterns, ['5[:]5'])
  assert.deepEqual(interaction(of([])).patterns, [])
  assert.deepEqual(interaction12(of([5, 4, 6])), { type: 'numeric', response: '0.0000000047', patterns: ['5'] })
})

test('all else is told in words', () => {
  const words = { ...none, response: 'A long lead', right: 'Nothing wrong' }
  assert.deepEqual(interaction(words), { type: 'other', response: 'A long lead', patterns: ['Nothing wrong'] })
  assert.deepEqual(interaction12(words), { type: 'fill-in', response: 'A long lead', patterns: ['Nothing wrong'] })
})

test('where nothing is right nothing is said to be', () => {
  const words = { ...none, response: '6 dB', credit: null }
  assert.deepEqual(interaction(words), { type: 'other', response: '6 dB', patterns: [] })
  assert.deepEqual(interaction12(words), { type: 'fill-in', response: '6 dB', patterns: [] })
})

test('a number is written without exponent, and is the same number', () => {
  for (const [number, text] of [
    [0, '0'],
    [-1.5, '-1.5'],
    [1e-7, '0.0000001'],
    [1.25e21, '1250000000000000000000'],
    [100, '100'],
    [0.5, '0.5'],
  ])
    assert.equal(decimal(number), text)
  fc.assert(
    fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e30, max: 1e30 }), number => {
      assert.match(decimal(number), /^-?\d+(\.\d+)?$/)
      assert.equal(Number(decimal(number)), number === 0 ? 0 : number)
    }),
  )
})
