// Whatever a browser holds where the page keeps things, the page opens, and nothing
// of it is lost: it is read, or shown to the reader for as long as they want.

import assert from 'node:assert/strict'
import { test } from 'node:test'
import fc from 'fast-check'
import { anyText, cases, holds } from './corpus.mjs'
import { pageWith, Storage } from './page.mjs'

const PREFIX = 'stageohm.'
const KEYS = ['pinned', 'pinned-at', 'recent', 'rigs', 'preferences', 'damaged']
const open = pageWith('base/kept.ts', 'screen/at-hand.ts', 'screen/rigs.ts', 'screen/settings.ts')
const OURS = { calculator: 'pad', hash: '#1/pad', name: 'Ours' }
/** Longer than this version reads. */
const LONG = JSON.stringify([{ calculator: 'pickup', hash: `#1/${'a'.repeat(66_000)}`, name: 'Long' }])
const kept = KEYS.flatMap(key => [...cases('kept'), LONG].map(text => [key, text]))
const oneKept = fc.tuple(fc.constantFrom(...KEYS), anyText('kept'))

/** All that a page reads when it starts. */
function read({ kept, atHand, rigs, settings }) {
  const all = [...atHand.recent(), ...atHand.pinnedScreens(), ...rigs.rigs()]
  const shown = { pinned: atHand.pinned(), preferences: settings.loadPreferences(), all }
  for (const { hash, calculator } of all) assert.deepEqual([typeof hash, typeof calculator], ['string', 'string'])
  for (const { name } of rigs.rigs()) assert.equal(typeof name, 'string')
  const { decimal, length, mains } = shown.preferences.settings
  assert.match(
    [decimal, length, mains, shown.preferences.theme].join(),
    /^(point|comma),(metre|foot),(50|60),(system|light|dark|stage)$/,
  )
  return { ...shown, damaged: kept.damaged() }
}

/** Whether a text that was kept under a key is there still, or shown; of a list, each item. */
function assertThere(storage, { damaged }, key, text) {
  const under = storage.getItem(PREFIX + key)
  if (under === text || damaged.includes(`${key} = ${text}`)) return
  const items = parsed(text)
  const message = `${key} = ${text} is lost: ${JSON.stringify(storage.texts)}`
  assert.ok(Array.isArray(items), message)
  const here = parsed(under) ?? []
  // What is not as the page writes it may say more than its items do.
  const isOurs = JSON.stringify(items) === text
  const shown = damaged.filter(one => isOurs && one.startsWith(`${key} = [`))
  const all = [...here, ...shown.flatMap(one => parsed(one.slice(key.length + 3)) ?? [])]
  const there = new Set(all.map(item => JSON.stringify(item)))
  for (const item of items) assert.ok(there.has(JSON.stringify(item)), message)
}

holds('what is kept is read or shown, also in the next page', kept, oneKept, ([key, text]) => {
  const storage = new Storage({ [PREFIX + key]: text })
  const first = read(open({ localStorage: storage }))
  assertThere(storage, first, key, text)
  const next = read(open({ localStorage: storage }))
  assert.deepEqual(next, first)
  assert.deepEqual(Object.keys(Object.prototype), [])
})

const beside = fc.tuple(oneKept, anyText('kept'))

holds(
  'nor is what was damaged before',
  kept.map(one => [one, '[']),
  beside,
  ([[key, text], damaged]) => {
    if (key === 'damaged') return
    const storage = new Storage({ [PREFIX + key]: text, [`${PREFIX}damaged`]: damaged })
    const shown = read(open({ localStorage: storage }))
    assertThere(storage, shown, key, text)
    assertThere(storage, shown, 'damaged', damaged)
  },
)

function parsed(text) {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}

const rooms = fc.tuple(oneKept, fc.nat(40))

holds(
  'nor is it lost where there is no room',
  kept.map(one => [one, 0]),
  rooms,
  ([[key, text], more]) => {
    const storage = new Storage({ [PREFIX + key]: text }, PREFIX.length + key.length + text.length + more)
    const page = open({ localStorage: storage })
    if (read(page).damaged.includes(`${key} = ${text}`)) putBeside(page)
    assertThere(storage, read(open({ localStorage: storage })), key, text)
  },
)

holds('what is put beside it takes nothing of it away', kept, oneKept, ([key, text]) => {
  const storage = new Storage({ [PREFIX + key]: text })
  const before = open({ localStorage: storage })
  const { damaged } = read(before)
  const good = JSON.parse(storage.getItem(PREFIX + key) ?? 'null')
  putBeside(before)
  const after = open({ localStorage: storage })
  const { pinned, preferences, damaged: still } = read(after)
  assert.ok(pinned.includes('pad') && preferences.theme === 'dark')
  assert.equal(after.rigs.rigOf('Ours')?.hash, '#1/pad')
  assert.deepEqual(still, damaged)
  if (key === 'rigs') assertHolds(after.kept.load('rigs', Array.isArray), good, ({ name }) => name !== 'Ours')
  if (key === 'pinned') assertHolds(pinned, good, id => id !== 'pad')
  if (key === 'preferences')
    assertHolds(Object.keys(JSON.parse(storage.getItem(PREFIX + key))), Object.keys(good ?? {}), () => true)
})

function putBeside({ rigs, atHand, settings }) {
  rigs.keepRig(OURS)
  atHand.pin('pad', '#1/pad')
  settings.keepPreferences({ theme: 'dark' })
}

function assertHolds(all, some, counts) {
  const there = new Set(all.map(one => JSON.stringify(one)))
  for (const one of (some ?? []).filter(counts)) assert.ok(there.has(JSON.stringify(one)), JSON.stringify(one))
}

test('where there is no room, what is unread is not replaced until the reader lets it go', () => {
  const text = `[BROKEN RIGS ${'z'.repeat(300)}]`
  const storage = new Storage({ 'stageohm.rigs': text }, 'stageohm.rigs'.length + text.length)
  const page = open({ localStorage: storage })
  assert.deepEqual(page.rigs.rigs(), [])
  assert.equal(page.rigs.keepRig(OURS), false)
  // As long as the page is open.
  assert.equal(page.rigs.rigOf('Ours')?.hash, '#1/pad')
  assert.equal(storage.getItem('stageohm.rigs'), text)
  assert.deepEqual(page.kept.damaged(), [`rigs = ${text}`])
  assert.deepEqual(read(open({ localStorage: storage })).damaged, [`rigs = ${text}`])

  page.kept.dropDamaged()
  assert.deepEqual(page.kept.damaged(), [])
  const next = open({ localStorage: storage })
  assert.deepEqual(read(next).damaged, [])
  assert.equal(next.rigs.rigOf('Ours')?.hash, '#1/pad')
})

test('nor does a tab undo what another one kept once there was room', () => {
  const text = `[BROKEN RIGS ${'z'.repeat(300)}]`
  const filled = { 'stageohm.rigs': text, other: 'x'.repeat(1000) }
  const storage = new Storage(filled, JSON.stringify(filled).length - 13)
  const page = open({ localStorage: storage })
  assert.equal(page.rigs.keepRig({ ...OURS, name: 'First' }), false)
  storage.removeItem('other')
  assert.equal(open({ localStorage: storage }).rigs.keepRig(OURS), true)
  page.kept.dropDamaged()
  assert.equal(page.rigs.keepRig({ ...OURS, name: 'Second' }), true)
  const names = open({ localStorage: storage })
    .rigs.rigs()
    .map(({ name }) => name)
  assert.deepEqual(names, ['Ours', 'Second'])
})

const BAD = { calculator: 'pickup', hash: 'nonsense', name: 'bad one' }
const GOOD = { calculator: 'pickup', hash: '#1/pickup/load_r=1M', name: 'good one' }
const lists = { rigs: [GOOD, BAD], recent: [BAD, GOOD], 'pinned-at': [GOOD, BAD], pinned: ['pickup', 7] }

test('one bad item takes no good one with it', () => {
  const texts = Object.entries(lists).map(([key, list]) => [PREFIX + key, JSON.stringify(list)])
  const storage = new Storage(Object.fromEntries(texts))
  for (const page of [open({ localStorage: storage }), open({ localStorage: storage })]) {
    const { damaged, pinned } = read(page)
    assert.deepEqual(pinned, ['pickup'])
    for (const all of [page.rigs.rigs(), page.atHand.recent(), page.atHand.pinnedScreens()])
      assert.deepEqual(all, [GOOD])
    const bad = ['rigs', 'recent', 'pinned-at'].map(key => `${key} = ${JSON.stringify([BAD])}`)
    assert.deepEqual([...damaged].sort(), [...bad, 'pinned = [7]'].sort())
  }
})

test('a name of which nothing is seen is none', () => {
  const { nameOf } = open().rigs
  const unseen = [
    '',
    ' ',
    '\0',
    '\u200b',
    '\u2060\ufeff',
    '\u00ad \u200e',
    '\u00a0\u3000',
    '\u3164',
    '\u2800',
    '\ufe0f',
  ]
  for (const name of unseen) assert.equal(nameOf(name), '', JSON.stringify(name))
  assert.equal(nameOf(' Stage\tleft\0'), 'Stage left')
  // What joins signs, or turns them round, belongs to them.
  for (const name of ['Bühne 2', '🎸', '👩\u200d🎤', '❤\ufe0f', '\u200fבס', 'باس']) assert.equal(nameOf(name), name)
})
