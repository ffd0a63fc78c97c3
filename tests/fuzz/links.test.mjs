// Whatever an address says, the page reads it, says what it could not use, and
// writes what it read in such a way that it reads the same again.

import assert from 'node:assert/strict'
import fc from 'fast-check'
import { anyText, cases, holds } from './corpus.mjs'
import { pageWith } from './page.mjs'

const { link, settings } = pageWith('screen/link.ts', 'screen/settings.ts')()
const SETTINGS = ['point', 'comma'].flatMap(decimal =>
  ['metre', 'foot'].flatMap(length => ['50', '60'].map(mains => ({ ...settings.DEFAULTS, decimal, length, mains }))),
)
const links = cases('links')
/** What may be left out without a difference: it says what is so anyway. */
const IDLE = /^(|in(=.*)?|(field|show|find)=?|tol=?|tol=usual|(lock|hide)(=,*)?|theme=system|draws=0*2000)$/

/** Own fields of whatever name, which deepEqual would not all see. */
const said = value => JSON.stringify(value)

holds('any address is read, and what was read is written as it was', links, anyText('links', 'texts'), hash => {
  const place = link.readPlace(hash)
  if (place.kind === 'unread') {
    // As a browser gives it.
    assert.equal(place.raw, hash.replace(/^#/, '').replace(/\p{Cs}/gu, '\ufffd'))
    return
  }
  const again = link.readPlace(written(place) ?? hash)
  assert.equal(again.kind, place.kind)
  if (place.kind !== 'calculator') return assert.deepEqual(again, place)
  if (written(place) === null) return
  assert.equal(said(again.filling), said(place.filling))
  assert.deepEqual(again.settings ?? settings.DEFAULTS, place.settings ?? settings.DEFAULTS)
  assert.deepEqual(again.spare, [])
})

function written(place) {
  if (place.kind === 'list') return link.writeFind(place.find)
  if (place.kind === 'entry') return link.writeEntry(place.id)
  if (place.kind === 'about') return link.writeAbout()
  return link.linkOf(place.filling, place.settings ?? settings.DEFAULTS)
}

// Each piece is left out in turn, so few of them have to do.
const short = anyText('links').map(text => text.slice(0, 400))

holds('each piece of an address says something, or is said to be spare', links, short, hash => {
  for (const [piece, rest] of pieces(hash)) {
    if (IDLE.test(piece)) continue
    const [whole, less] = [hash, rest].map(hash => said(link.readPlace(hash)))
    assert.notEqual(whole, less, `“${piece}” of ${hash} is lost`)
  }
})

/** Each piece of an address that is read, and the address without it. */
function pieces(hash) {
  const [path = '', ...query] = hash.replace(/^#/, '').split('?')
  const [version, place, ...sets] = path.split('/')
  const whole = (sets, query) => `#${[version, place, ...sets].join('/')}?${query}`
  const without = (list, at) => list.filter((_, index) => index !== at)
  const asked = query.join('?').split('&')
  return [
    ...sets.flatMap((set, at) => {
      const all = set.split('&')
      const less = index => without(all, index).join('&')
      return all.map((piece, index) => [
        piece,
        whole(
          sets.map((set, other) => (other === at ? less(index) : set)),
          query.join('?'),
        ),
      ])
    }),
    ...asked.map((piece, at) => [piece, whole(sets, without(asked, at).join('&'))]),
  ]
}

const percents = fc.dictionary(
  fc.constantFrom('all', 'resistor', '__proto__', 'lead_c'),
  fc.double({ min: 0, noNaN: true, noDefaultInfinity: true }),
)
const text = fc.oneof(anyText('texts'), fc.string()).map(text => text.replace(/\p{Cs}/gu, ''))
const id = text.filter(id => id !== '' && !['look-up', 'about'].includes(id))
const texts = fc.array(fc.tuple(id, text), { maxLength: 4 }).map(Object.fromEntries)
const filling = fc.record({
  calculator: id,
  current: texts,
  held: fc.array(texts, { maxLength: 3 }),
  want: fc.option(fc.record({ reading: text, text, field: text })),
  tolerance: fc.option(fc.record({ percent: percents, draws: fc.nat(999_999) })),
  embed: fc.option(
    fc.record({
      open: fc.option(fc.array(id, { maxLength: 3 })),
      locked: fc.array(id, { maxLength: 3 }),
      hidden: fc.array(id, { maxLength: 3 }),
      working: fc.boolean(),
      theme: fc.constantFrom('system', 'light', 'dark', 'stage'),
    }),
  ),
})

holds('any screen is written and read', [], fc.tuple(filling, fc.constantFrom(...SETTINGS)), ([filling, wanted]) => {
  const hash = link.linkOf(filling, wanted)
  if (hash === null) return
  const place = link.readPlace(hash)
  assert.equal(said(plain(place.filling)), said(plain(filling)), hash)
  assert.deepEqual(place.settings ?? settings.DEFAULTS, wanted)
  assert.deepEqual(place.spare, [])
})

/** In one order, whatever the order in which fields were put in. */
function plain({ calculator, current, held, want, tolerance, embed }) {
  return {
    calculator,
    current,
    held,
    want,
    percent: tolerance && Object.entries(tolerance.percent),
    draws: tolerance?.draws,
    embed: embed && { ...embed, hidden: embed.open === null ? embed.hidden : [] },
  }
}

holds('no address reaches what all objects share', links, anyText('links'), hash => {
  const place = link.readPlace(hash)
  const { filling } = place
  for (const texts of filling ? [filling.current, ...filling.held, filling.tolerance?.percent ?? {}] : []) {
    assert.equal(Object.getPrototypeOf(texts), Object.prototype)
  }
  assert.deepEqual(Object.keys(Object.prototype), [])
})
