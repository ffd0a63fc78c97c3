// Whatever a browser holds where the page keeps things, the page opens, and nothing
// of it is lost: it is read, or shown to the reader for as long as they want.

import assert from 'node:assert/strict'
import fc from 'fast-check'
import { anyText, cases, holds } from './corpus.mjs'
import { pageWith, Storage } from './page.mjs'

const PREFIX = 'stageohm.'
const KEYS = ['pinned', 'pinned-at', 'recent', 'rigs', 'preferences', 'damaged']
const open = pageWith('base/kept.ts', 'screen/at-hand.ts', 'screen/rigs.ts', 'screen/settings.ts')
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

/** Whether a text that was kept under a key is there still, or shown. */
function assertThere(storage, { damaged }, key, text) {
  const under = storage.getItem(PREFIX + key)
  const isDamaged = damaged.includes(`${key} = ${text}`) || (key === 'damaged' && under !== null && under === text)
  assert.ok(under === text || isDamaged, `${key} = ${text} is lost: ${JSON.stringify(storage.texts)}`)
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
    const before = JSON.stringify(parsed(damaged))
    if (!shown.damaged.includes(`damaged = ${damaged}`))
      for (const one of JSON.parse(before)) assert.ok(shown.damaged.includes(one))
  },
)

function parsed(text) {
  try {
    return JSON.parse(text)
  } catch {
    return 'not even that'
  }
}

const rooms = fc.tuple(oneKept, fc.nat(40))

holds(
  'nor is it lost where there is no room',
  kept.map(one => [one, 0]),
  rooms,
  ([[key, text], more]) => {
    const storage = new Storage({ [PREFIX + key]: text }, PREFIX.length + key.length + text.length + more)
    read(open({ localStorage: storage }))
    assertThere(storage, read(open({ localStorage: storage })), key, text)
  },
)

holds('what is put beside it takes nothing of it away', kept, oneKept, ([key, text]) => {
  const storage = new Storage({ [PREFIX + key]: text })
  const before = open({ localStorage: storage })
  const { damaged } = read(before)
  const good = JSON.parse(storage.getItem(PREFIX + key) ?? 'null')
  before.rigs.keepRig({ calculator: 'pad', hash: '#1/pad', name: 'Ours' })
  before.atHand.pin('pad', '#1/pad')
  before.settings.keepPreferences({ theme: 'dark' })
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

function assertHolds(all, some, counts) {
  const there = new Set(all.map(one => JSON.stringify(one)))
  for (const one of (some ?? []).filter(counts)) assert.ok(there.has(JSON.stringify(one)), JSON.stringify(one))
}
