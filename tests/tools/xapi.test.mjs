// Results as xAPI statements: by the rules of its specification, and by what was answered.

import assert from 'node:assert/strict'
import { test } from 'node:test'
import fc from 'fast-check'
import { faultsOf } from '../fixtures/xapi-rules.mjs'
import { pageWith } from '../fuzz/page.mjs'

const page = pageWith('lesson/class/results-xapi.ts')()
const { statementsOf } = page.resultsXapi

const key = { text: '', value: null, full: null, order: [], parts: {}, case: null, curve: [] }
const marked = (step, part) => ({ problem: null, share: 1, points: 2, of: 2, said: null, key, findings: [], ...part })
const step = part => ({ kind: 'read', title: '', points: 2, cases: [], ways: [], ...part })

const lesson = {
  id: 'half',
  revision: 3,
  language: 'en',
  title: 'Half the voltage',
  pass: 0.5,
  steps: [
    step({ title: 'Two alike' }),
    step({ kind: 'number', title: 'How much is lost?' }),
    step({ kind: 'choice', title: 'The least loss first' }),
    step({ kind: 'fault', title: 'What is wrong?', cases: [{ name: 'Nothing' }, { name: 'A long lead' }] }),
  ],
}
const names = { 2: '10 kΩ', 10: '1 MΩ', 1: '100 kΩ' }
const ways = Object.entries(names).map(([id, name]) => ({ id, name }))
const dealt = { seed: 7, drawn: {}, steps: lesson.steps.map(({ kind }) => ({ ways: kind === 'choice' ? ways : [] })) }
const response = part => ({
  text: '',
  curve: [],
  parts: {},
  measured: [],
  case: null,
  order: [],
  sure: 2,
  hints: 0,
  ...part,
})

const row = {
  source: 'lee.json',
  lesson,
  dealt,
  notes: [],
  points: 5,
  of: 6,
  said: 5,
  result: {
    id: 'half',
    revision: 3,
    seed: 7,
    name: 'Lee "the ear" 🎸',
    responses: [
      null,
      response({ text: '6 dB' }),
      response({ order: ['10', '2', '1'] }),
      response({ case: 1, measured: ['peak'] }),
    ],
    points: [null, 2, 1, 2],
  },
  marked: [
    null,
    marked(1, { said: 6, key: { ...key, text: '6.02 dB', value: 6.02, full: [5.52, 6.52] } }),
    marked(2, { share: 2 / 3, points: 1, key: { ...key, order: [['10'], ['1', '2']] } }),
    marked(3, { key: { ...key, text: 'A long lead', case: 1 } }),
  ],
}

const told = (part = {}) => statementsOf({ rows: [{ ...row, ...part }] })
const verbOf = ({ verb }) => verb.id.replace(/.*\//, '')

test('each answer is told, then what came of the lesson, as the specification has it', () => {
  const all = told()
  assert.deepEqual(all.map(faultsOf), [[], [], [], [], []])
  assert.deepEqual(all.map(verbOf), ['answered', 'answered', 'answered', 'passed', 'completed'])
  const [number, order, fault, passed, completed] = all
  assert.equal(number.object.definition.interactionType, 'numeric')
  assert.equal(number.result.response, '6')
  assert.deepEqual(number.object.definition.correctResponsesPattern, ['5.52[:]6.52'])
  assert.equal(order.object.definition.interactionType, 'sequencing')
  assert.equal(order.result.response, '10[,]2[,]1')
  assert.equal(order.result.success, false)
  assert.deepEqual(order.object.definition.correctResponsesPattern, ['10[,]1[,]2', '10[,]2[,]1'])
  assert.deepEqual(
    order.object.definition.choices,
    ['1', '2', '10'].map(id => ({ id, description: { en: names[id] } })),
  )
  assert.equal(fault.object.definition.interactionType, 'other')
  assert.equal(fault.result.response, 'A long lead')
  assert.equal(passed.result.score.scaled, 0.8333333)
  assert.equal(passed.result.success, true)
  assert.equal(completed.result.completion, true)
  for (const { actor } of all) {
    assert.equal(actor.account.name, row.result.name)
    assert.match(new URL(actor.account.homePage).hostname, /\.invalid$/)
  }
})

test('no time is made up', () => {
  assert.doesNotMatch(JSON.stringify(told()), /"(timestamp|stored|duration)"/)
})

test('a part of a lesson is not completed, and what is not enough has failed', () => {
  const half = { marked: row.marked.map((one, at) => (at < 2 ? one : null)), points: 2 }
  assert.deepEqual(told(half).map(verbOf), ['answered', 'failed'])
  assert.deepEqual(told(half).map(faultsOf), [[], []])
})

test('where no share passes nobody has passed', () => {
  assert.deepEqual(told({ lesson: { ...lesson, pass: 0 } }).map(verbOf), [
    'answered',
    'answered',
    'answered',
    'completed',
  ])
})

test('the same result has the same identifiers, and is told once; each other has others', () => {
  const ids = part => told(part).map(({ id }) => id)
  assert.deepEqual(ids(), ids())
  assert.deepEqual(ids({ source: 'a-code.json' }), ids())
  assert.equal(statementsOf({ rows: [row, { ...row, source: 'again.json' }] }).length, 5)
  const others = [{ name: 'Kim' }, { seed: 8 }, { revision: 4 }, { id: 'other' }].map(part => ({
    result: { ...row.result, ...part },
  }))
  const responses = row.result.responses.map(one => one && { ...one, sure: 3 })
  const all = [{}, ...others, { result: { ...row.result, responses } }].flatMap(ids)
  assert.equal(new Set(all).size, 30)
  // The same name always has the same identifier, which is of version 5 (RFC 4122, 4.1.3 and 4.3).
  for (const id of all) assert.match(id, /^[\da-f]{8}-[\da-f]{4}-5[\da-f]{3}-[89ab][\da-f]{3}-[\da-f]{12}$/)
})

test('of a lesson that is not known nothing is told', () => {
  assert.deepEqual(told({ lesson: null, dealt: null, marked: [] }), [])
})

test('however a lesson and a learner are called, statements are as the specification has them', () => {
  const text = fc.string({ unit: 'binary', maxLength: 12 })
  fc.assert(
    fc.property(text, text, text, text, (id, title, language, name) => {
      const all = told({ lesson: { ...lesson, id, title, language }, result: { ...row.result, id, name } })
      assert.equal(all.length, 5)
      for (const one of all) assert.deepEqual(faultsOf(one), [])
    }),
  )
  assert.deepEqual(told({ result: { ...row.result, name: '' } }).map(faultsOf), [[], [], [], [], []])
})

test('what is not as the specification has it is found', () => {
  const [number, order] = told()
  const broken = [
    ['id', { id: 'one' }],
    ['actor', { actor: { name: 'Lee' } }],
    ['actor', { actor: { account: { homePage: 'nowhere', name: 'Lee' } } }],
    ['verb', { verb: { id: 'answered' } }],
    ['verb', { verb: { id: 'urn:x:y', display: { 'no language': 'x' } } }],
    ['object', { object: { id: 'step 1' } }],
    ['object', { object: { id: 'urn:x:y', definition: { interactionType: 'guess' } } }],
    ['result', { result: { score: { scaled: 1.5 } } }],
    ['result', { result: { duration: '1 min' } }],
    ['result', { result: { duration: 'PT' } }],
    ['result', { result: { completion: 'true' } }],
    ['context', { context: { registration: 'one' } }],
    ['context', { context: { extensions: { seed: 7 } } }],
    ['context', { context: { contextActivities: { parent: { id: 'urn:x:y' } } } }],
    ['timestamp', { timestamp: 'yesterday' }],
    ['more', { more: 1 }],
    ['response', { result: { response: '6 dB' } }],
  ]
  for (const [place, part] of broken) assert.deepEqual(faultsOf({ ...number, ...part }), [place])
  const { definition } = order.object
  const changed = part => ({ ...order, object: { ...order.object, definition: { ...definition, ...part } } })
  assert.deepEqual(faultsOf(changed({ correctResponsesPattern: ['10[,]3'] })), ['correctResponsesPattern'])
  assert.ok(faultsOf(changed({ choices: undefined })).length > 0)
})
