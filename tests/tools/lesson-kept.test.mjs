// How lessons are kept: whose run a run is, what two tabs keep, and what of a damaged
// browser, file or code is a response.

import assert from 'node:assert/strict'
import { test } from 'node:test'
import { pageWith, Storage } from '../fuzz/page.mjs'

const open = pageWith(
  'base/kept.ts',
  'base/visible.ts',
  'lesson/address.ts',
  'lesson/attempt.ts',
  'lesson/response.ts',
  'lesson/runs.ts',
  'lesson/text-hash.ts',
  'lesson/class/read-result.ts',
  'lesson/class/results-csv.ts',
  'screen/lesson-drafts.ts',
)
const RUNS = 'stageohm.lesson-runs'
const DRAFTS = 'stageohm.lesson-drafts'
const DAMAGED = 'stageohm.damaged'

const run = (part = {}) => ({
  ...{ id: 'sample', revision: 1, text: 'aa', seed: 7, step: 0, responses: [null, null], committed: [false, false] },
  ...part,
})
const said = text => ({ ...open().response.NO_RESPONSE, text })

/** Everything that a response must not be. */
const NO_RESPONSES = [
  ...[{ curve: 'x' }, { curve: [[1]] }, { curve: [[1, null]] }, { parts: 3 }, { parts: { load_r: 1 } }, { order: 'q' }],
  ...[{ measured: 7 }, { measured: [7] }, { text: 5 }, { decade: 'many' }, { case: -1 }, { case: 0.5 }, { sure: 4 }],
  ...[{ heard: 'a' }, { heard: ['c'] }, { heard: [null] }, { seen: 'third' }, { seen: 1 }],
  ...[{ hints: -1 }, { hints: 'all' }, { curve: 'x', parts: 3, order: 'q', measured: 7 }, [], 'x', 7],
]

test('the hash is FNV-1a of 64 bits, and does not depend on the order of keys', () => {
  const { fnv, textOf } = open().textHash
  // From the list of its authors.
  assert.equal(fnv(''), 'cbf29ce484222325')
  assert.equal(fnv('a'), 'af63dc4c8601ec8c')
  assert.equal(fnv('foobar'), '85944171f73967e8')
  assert.equal(textOf({ a: 1, b: [{ c: 2, d: '' }] }), textOf({ b: [{ d: '', c: 2 }], a: 1 }))
  assert.notEqual(textOf({ a: ['1', '2'] }), textOf({ a: ['2', '1'] }))
})

test('a run is that of one text: not of a copy that was changed, nor of a lesson without a name', () => {
  const { runs } = open()
  assert.equal(runs.keepRun(run({ responses: [said('of the first')] })), true)
  assert.equal(runs.runOf(run({ text: 'bb' }), null), undefined)
  runs.keepRun(run({ text: 'bb', responses: [said('of the copy')] }))
  assert.equal(runs.runOf(run(), null).responses[0].text, 'of the first')
  assert.equal(runs.runOf(run({ text: 'bb' }), 7).responses[0].text, 'of the copy')
  runs.keepRun(run({ id: '', text: 'cc' }))
  assert.equal(runs.runOf(run({ id: '', text: 'dd' }), null), undefined)
})

test('a run of an earlier version is taken over, but for one of a lesson without a name', () => {
  const old = ({ text: _, ...others }) => others
  const localStorage = new Storage({ [RUNS]: JSON.stringify([old(run()), old(run({ id: '' }))]) })
  const { runs } = open({ localStorage })
  assert.equal(runs.runOf(run({ text: 'any' }), null).seed, 7)
  assert.equal(runs.runOf(run({ id: '', text: 'any' }), null), undefined)
  runs.keepRun(run({ text: 'any' }))
  assert.equal(JSON.parse(localStorage.getItem(RUNS)).length, 2)
  assert.equal(runs.runOf(run({ text: 'another' }), null), undefined)
})

test('what another tab committed stays', () => {
  const localStorage = new Storage()
  const [one, other] = [open({ localStorage }).runs, open({ localStorage }).runs]
  one.keepRun(run({ responses: [said('first'), null], committed: [true, false] }))
  other.keepRun(run({ step: 1, responses: [said('half ty'), said('second')], committed: [false, true] }))
  one.keepRun(run({ responses: [said('first'), said('typed')], committed: [true, false] }))
  const { responses, committed } = one.runOf(run(), 7)
  assert.deepEqual(committed, [true, true])
  assert.deepEqual(
    responses.map(({ text }) => text),
    ['first', 'second'],
  )
})

test('where the browser keeps nothing, that is answered, and it lasts as long as the page', () => {
  const { runs } = open({ localStorage: new Storage({}, 10) })
  assert.equal(runs.keepRun(run()), false)
  assert.equal(runs.runOf(run(), 7).seed, 7)
})

test('damaged runs are set aside with their text', () => {
  for (const bad of NO_RESPONSES) {
    const damaged = run({ seed: 8, responses: [bad] })
    const { runs, kept } = open({ localStorage: new Storage({ [RUNS]: JSON.stringify([damaged, run()]) }) })
    assert.equal(runs.runOf(run(), null)?.seed, 7)
    assert.deepEqual(kept.damaged(), [`lesson-runs = ${JSON.stringify([damaged])}`])
  }
})

test('damaged responses of a learning system are left out', async () => {
  const { attempt } = open()
  const kept = { v: 1, id: 'sample', revision: 1, seed: 7, step: 0, given: [] }
  const read = await attempt.readKept(JSON.stringify({ ...kept, responses: [...NO_RESPONSES, { text: '1 V' }] }))
  assert.deepEqual(
    read.responses.slice(0, -1),
    NO_RESPONSES.map(() => null),
  )
  assert.equal(read.responses.at(-1).text, '1 V')
  assert.equal(read.text, undefined)
  assert.equal((await attempt.readKept(JSON.stringify({ ...kept, text: 'aa', responses: [] }))).text, 'aa')
  assert.equal(await attempt.readKept(JSON.stringify({ ...kept, seed: -1, responses: [] })), null)
})

test('damaged responses of a result are told, and results of earlier versions are read', () => {
  const { readResult } = open().readResult
  const file = { stageohm: 'lesson-result', version: 1, lesson: { id: 'a', revision: 1 }, seed: 1, name: 'A' }
  const read = part => {
    const text = JSON.stringify({ ...file, responses: [null], points: [], ...part })
    return readResult({ source: '', text, size: text.length })
  }
  for (const bad of NO_RESPONSES.filter(bad => !Array.isArray(bad) && typeof bad === 'object')) {
    assert.deepEqual([read({ responses: [bad] }).unreadable, read({ responses: [bad] }).responses], [true, [null]])
  }
  assert.deepEqual([read({}).text, read({}).unreadable], ['', false])
  assert.equal(read({ lesson: { id: 'a', revision: 1, text: 'aa' } }).text, 'aa')
})

test('damaged drafts are set aside with their text', () => {
  const draft = part => ({ lesson: { id: 'a', revision: 1, steps: [{ kind: 'number', ...part }] }, saved: '' })
  const good = draft({ points: 'two', budget: null, values: { load_r: '1M' }, limits: [{ reading: 'loss' }] })
  for (const part of [
    ...[
      { hints: 5 },
      { rig: 7 },
      { rig: {} },
      { open: 'x' },
      { limits: {} },
      { drawer: [1] },
      { cases: [{ values: 1 }] },
    ],
    ...[{ title: {} }, { values: { a: 1 } }, { points: [] }, { variants: [] }, { kind: 7 }],
  ]) {
    const bad = draft(part)
    const { lessonDrafts, kept } = open({ localStorage: new Storage({ [DRAFTS]: JSON.stringify([bad, good]) }) })
    assert.deepEqual(lessonDrafts.drafts(), [good])
    assert.deepEqual(kept.damaged(), [`lesson-drafts = ${JSON.stringify([bad])}`])
  }
  const head = { ...good, lesson: { ...good.lesson, rig: 7 } }
  assert.deepEqual(open({ localStorage: new Storage({ [DRAFTS]: JSON.stringify([head]) }) }).lessonDrafts.drafts(), [])
  const deep = `[{"lesson":{"id":"a","revision":1,"steps":[],"x":${'['.repeat(9000)}${']'.repeat(9000)}},"saved":""}]`
  const localStorage = new Storage({ [DRAFTS]: deep })
  assert.deepEqual(open({ localStorage }).lessonDrafts.drafts(), [])
  assert.deepEqual(JSON.parse(localStorage.getItem(DAMAGED)), [`lesson-drafts = ${deep}`])
})

test('a seed that cannot be read is told', () => {
  const { readLessonAddress } = open().address
  for (const odd of ['-1', '1e99', '4294967296', '1.5']) {
    const { seed, odd: told } = readLessonAddress(`/hum?seed=${odd}`)
    assert.deepEqual([seed, told], [null, odd])
  }
  assert.deepEqual([readLessonAddress('/hum').odd, readLessonAddress('/hum?seed=4294967295').odd], ['', ''])
})

test('what a spreadsheet would take for a formula is text', () => {
  const { plain } = open().resultsCsv
  const formulas = [
    '=1',
    '+1',
    '-1',
    '@A1',
    '\n=1',
    ' =1',
    '\u00a0=1',
    '\u200b=1',
    '\u202e=1',
    '＝1',
    '＋1',
    '－1',
    '＠A',
  ]
  for (const text of [...formulas, '\ttext', '\rtext', '\r\n =1']) assert.equal(plain(text), `'${text}`)
  for (const text of ['Ada', '1', 'a=b', ' Ada', '']) assert.equal(plain(text), text)
})

test('nothing turns the text around it, and what cannot be seen is nothing', () => {
  const { visible } = open().visible
  assert.equal(visible('a\u202eb\u2066c\u2069'), 'abc')
  for (const none of ['', ' ', '\u200b\u200d', '\u202e\u2069', '\u2800', '\u3164', '\ufeff'])
    assert.equal(visible(none), '')
  for (const text of ['أ', '👩‍🔬', '1', '–']) assert.equal(visible(text), text)
})
