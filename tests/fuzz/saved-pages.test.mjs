// Whatever stands in the block of a saved page, the page opens; and what is saved
// opens as it was saved.

import assert from 'node:assert/strict'
import { test } from 'node:test'
import fc from 'fast-check'
import { parse } from 'node-html-parser'
import { anyText, cases, holds } from './corpus.mjs'
import { pageWith } from './page.mjs'

const open = pageWith(
  'screen/saved-page.ts',
  'screen/save-page.ts',
  'screen/settings.ts',
  'screen/address.ts',
  'screen/link.ts',
)

/** A page that is one file, with this text in its block. */
function pageOf(text) {
  const block = { textContent: text }
  const addresses = []
  const change = (_state, _title, address) => addresses.push(address)
  const page = open({
    document: {
      getElementById: id => (id === 'beginning' ? block : null),
      addEventListener: () => undefined,
      documentElement: { dataset: {} },
    },
    history: { replaceState: change, pushState: change },
  })
  return { page, block, addresses }
}

function parsed(text) {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}

const said = value => JSON.stringify(Object.entries(value).sort())
const isRecord = value => typeof value === 'object' && value !== null && !Array.isArray(value)

holds('any block is read', cases('saved-pages'), anyText('saved-pages', 'links'), text => {
  const { page, addresses } = pageOf(text)
  const read = page.savedPage.beginning()
  // A mark of the order of bytes and blanks do not count.
  const given = parsed(text.trim())
  const unread = page.savedPage.unreadBeginning()
  if (text.trim() === '') assert.deepEqual(read, {})
  else if (!isRecord(given)) assert.deepEqual(read, { unread: text })
  else if (typeof (given.hash ?? '') === 'string' && given.hash !== null)
    assert.equal(JSON.stringify(read), JSON.stringify(given))
  else assert.equal(said(read), said({ ...given, hash: '', unread: text }))
  assert.equal(unread, typeof read.unread === 'string' ? read.unread : null)
  assert.equal(page.savedPage.isSaved(), isRecord(given) && isRecord(given.settings))
  const { settings, theme } = page.settings.loadPreferences()
  const chosen = [settings.decimal, settings.length, settings.mains, theme].join()
  assert.match(chosen, /^(point|comma),(metre|foot),(50|60),(system|light|dark|stage)$/)
  // It may lead to a screen and to nothing else.
  if (typeof read.hash === 'string') page.address.begin(read.hash)
  for (const address of addresses) assert.match(address, /^#/)
  assert.deepEqual(Object.keys(Object.prototype), [])
})

const screens = fc.oneof(fc.constantFrom(...cases('links')), anyText('links'))

holds(
  'what changes on the screen leaves the rest of the block as it was',
  [],
  fc.tuple(anyText('saved-pages'), screens),
  ([text, hash]) => {
    const { page, block } = pageOf(text)
    const before = page.savedPage.beginning()
    page.savedPage.noteBeginning({ hash })
    const after = parsed(block.textContent)
    assert.equal(after.hash, hash)
    assert.equal(JSON.stringify({ ...before, hash }), JSON.stringify({ ...after, hash }))
    assert.ok(!block.textContent.includes('<'))
  },
)

const HTML =
  '<!doctype html><html><head><script id="beginning" type="application/json">{}</script></head><body><script>1</script></body></html>'

holds('a page that is saved begins with what was on the screen', cases('links'), screens, async hash => {
  const served = open({ fetch: async () => ({ ok: true, text: async () => HTML }) })
  const settings = { decimal: 'comma', length: 'foot', mains: '60', language: 'en' }
  const now = { hash, settings, theme: 'dark', working: true }
  const saved = await served.savePage.savedPage(now)
  const scripts = parse(saved).querySelectorAll('script')
  assert.equal(scripts.length, 2)
  const { page } = pageOf(scripts[0].rawText)
  assert.deepEqual(page.savedPage.beginning(), now)
  assert.deepEqual(page.settings.loadPreferences(), { settings, theme: 'dark' })
})

const damaged = ['{"hash":"#1/pad",}', '{"hash":"#1/pad"} // mine', '[]', 'null', '{"hash":7}', '{"hash":["#1/pad"]}']

for (const text of damaged) {
  test(`a block that cannot be read is there until the reader lets it go: ${text}`, () => {
    const { page, block } = pageOf(text)
    const { noteBeginning, unreadBeginning } = page.savedPage
    assert.equal(unreadBeginning(), text)
    noteBeginning({ hash: '#1/pickup', theme: 'dark' })
    // As the browser's own Save As takes it along.
    const { savedPage } = pageOf(block.textContent).page
    assert.equal(savedPage.unreadBeginning(), text)
    assert.equal(savedPage.beginning().hash, '#1/pickup')
    noteBeginning({ unread: undefined })
    assert.equal(unreadBeginning(), null)
    assert.deepEqual(JSON.parse(block.textContent), { hash: '#1/pickup', theme: 'dark' })
  })
}

test('a mark of the order of bytes and blanks round it are no damage', () => {
  for (const text of ['\ufeff{"hash":"#1/pad"}', '\u00a0\n{"hash":"#1/pad"}\ufeff\u2003', ' \ufeff ', '']) {
    const { savedPage } = pageOf(text).page
    assert.equal(savedPage.unreadBeginning(), null)
    assert.equal(savedPage.beginning().hash, text.trim() === '' ? undefined : '#1/pad')
  }
})
