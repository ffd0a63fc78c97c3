// Whatever stands in the block of a saved page, the page opens; and what is saved
// opens as it was saved.

import assert from 'node:assert/strict'
import fc from 'fast-check'
import { parse } from 'node-html-parser'
import { anyText, cases, holds } from './corpus.mjs'
import { pageWith } from './page.mjs'

const open = pageWith('screen/saved-page.ts', 'screen/settings.ts', 'screen/address.ts', 'screen/link.ts')

/** A page that is one file, with this text in its block. */
function pageOf(text) {
  const block = { textContent: text }
  const addresses = []
  const change = (_state, _title, address) => addresses.push(address)
  const page = open({
    document: { getElementById: id => (id === 'beginning' ? block : null), addEventListener: () => undefined },
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

const isRecord = value => typeof value === 'object' && value !== null && !Array.isArray(value)

holds('any block is read', cases('saved-pages'), anyText('saved-pages', 'links'), text => {
  const { page, addresses } = pageOf(text)
  const read = page.savedPage.beginning()
  const given = parsed(text)
  assert.equal(JSON.stringify(read), JSON.stringify(isRecord(given) ? given : {}))
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
  const saved = await served.savedPage.savedPage(now)
  const scripts = parse(saved).querySelectorAll('script')
  assert.equal(scripts.length, 2)
  const { page } = pageOf(scripts[0].rawText)
  assert.deepEqual(page.savedPage.beginning(), now)
  assert.deepEqual(page.settings.loadPreferences(), { settings, theme: 'dark' })
})
