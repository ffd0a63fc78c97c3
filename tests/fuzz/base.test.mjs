// What the page reads and writes besides: tables, code for lessons, numbers on axes,
// pieces of answers, and questions to its search.

import assert from 'node:assert/strict'
import fc from 'fast-check'
import { parse } from 'node-html-parser'
import { anyText, cases, holds } from './corpus.mjs'
import { pageWith } from './page.mjs'

const page = pageWith(
  ...['base/csv.ts', 'base/structural-sharing.ts', 'base/unit.ts', 'base/words.ts', 'base/limit.ts', 'base/packed.ts'],
  ...['share/embed-code.ts', 'screen/link.ts', 'screen/settings.ts', 'start/search.ts'],
)()
const { csv, structuralSharing, unit, words, limit, packed, embedCode, link, settings, search } = page
const POINT = settings.DEFAULTS
const COMMA = { ...POINT, decimal: 'comma' }
const text = anyText('texts', 'searches')
const texts = [...cases('texts'), ...cases('searches')]

holds(
  'a table reads as it was written',
  [],
  fc.array(fc.array(text, { minLength: 1, maxLength: 4 }), { maxLength: 4 }),
  rows => {
    for (const settings of [POINT, COMMA]) {
      const written = csv.csvOf(rows, settings)
      const plain = rows.map(row => row.map(cell => cell.replaceAll('\u00a0', ' ')))
      assert.deepEqual(rowsOf(written, settings === COMMA ? ';' : ','), plain)
    }
  },
)

/** As RFC 4180 has it read. */
function rowsOf(text, between) {
  const cell = new RegExp(`(?:"((?:[^"]|"")*)"|([^"${between}\\r\\n]*))(${between}|\\r\\n)`, 'y')
  const rows = []
  const row = []
  let at = text.startsWith('\ufeff') ? 1 : 0
  while (at < text.length) {
    cell.lastIndex = at
    const [whole, quoted, bare, end] = cell.exec(text) ?? assert.fail(`at ${at} of ${JSON.stringify(text)}`)
    row.push(quoted?.replaceAll('""', '"') ?? bare)
    if (end === '\r\n') rows.push(row.splice(0))
    at += whole.length
  }
  return rows
}

const json = fc.oneof(
  fc.json().map(text => JSON.parse(text)),
  fc
    .array(fc.tuple(fc.constantFrom('a', 'b', '__proto__', 'constructor', '0'), fc.jsonValue()))
    .map(Object.fromEntries),
)

holds(
  'an answer that shares pieces with the last one is that answer',
  [[{ a: 1 }, JSON.parse('{"__proto__":{}}')]],
  fc.tuple(json, json),
  ([last, next]) => {
    const wanted = JSON.stringify(next)
    assert.equal(JSON.stringify(structuralSharing.shareStructure(last, next)), wanted)
    assert.deepEqual(Object.keys(Object.prototype), [])
  },
)

// More of it may be too much for a smaller unit.
const MOST = 1e290
const some = fc.double({ min: -MOST, max: MOST })
const number = fc.oneof(some, fc.constantFrom(0, -0, 5e-324, NaN, Infinity, -Infinity))
const units = [
  'one',
  'ratio',
  'percent',
  'ohm',
  'farad',
  'volt',
  'metre',
  'kelvin',
  'decibel',
  'decibel_u',
  'farad_per_metre',
]

holds(
  'any number is printed, and rounded to one',
  [],
  fc.tuple(number, fc.constantFrom(...units), fc.boolean()),
  ([value, name, log]) => {
    for (const settings of [POINT, COMMA, { ...POINT, length: 'foot' }]) {
      const printed = unit.print(value, unit.printing(name, 'X', settings), settings)
      assert.equal(printed === '–', !Number.isFinite(value), printed)
      assert.doesNotMatch(printed, /NaN|undefined|Infinity/)
      const field = { unit: name, log, usual_from: 1, usual_to: 100, least: 0, most: 1e6 }
      assert.equal(typeof unit.round(value, field, settings), 'number')
      unit.axisPrinting({ unit: name, symbol: 'X', log }, Math.min(value, 1), Math.max(value, 10), settings)
    }
  },
)

holds('any word is said, known or not', texts, text, text => {
  words.setWords({ words: { known: '{ $a } and { $b }' }, calculators: [], languages: [] })
  assert.equal(words.say(text), text)
  assert.equal(words.say('known', { a: text }), `${text} and { $b }`)
})

holds('any text has a length, and hides or does not', texts, text, text => {
  assert.equal(limit.isLong(text), text.replace(/^#/, '').length > limit.LONGEST)
  assert.equal(typeof limit.isHiding(text), 'boolean')
})

holds('what is not packed is refused', texts, text, async text => {
  const read = await packed.unpacked({ textContent: text, dataset: {} }).then(
    bytes => Buffer.from(bytes).toString('base64').replace(/=+$/, ''),
    () => null,
  )
  if (read !== null)
    assert.equal(read, Buffer.from(text.replace(/\s/g, ''), 'base64').toString('base64').replace(/=+$/, ''))
})

holds('code for a lesson holds its screen and its title', texts, text, text => {
  // Only what the core reads is put into a lesson, and that is no longer.
  const well = text.slice(0, 200).replace(/\p{Cs}/gu, '')
  const filling = link.fresh('pickup', { load_r: well })
  const embed = { open: null, locked: ['load_r'], hidden: [], working: true, theme: 'dark' }
  const screen = link.writePlace({ ...filling, embed }, POINT)
  for (const lines of [embedCode.frameLine, embedCode.elementLines]) {
    const node = parse(lines(screen, well, 700)).querySelector('iframe, stageohm-calculator')
    const address = node.getAttribute('src') ?? node.getAttribute('screen')
    const read = link.readPlace(address.slice(address.indexOf('#')))
    assert.deepEqual(read.filling, { ...filling, embed })
  }
})

const find = search.makeSearch(
  ['Pickup', 'Phantom power', 'constructor', '__proto__', 'Lead length'].map((title, prior) => ({
    ...{ title, also: ['D.I.', 'toString'], said: ['What a lead takes away', ''], calculator: title, prior },
  })),
  of => ({ idle: 'the a of', alike: 'lead cable cord; di box', endings: 's' })[of],
)

holds('any question is looked for', texts, text, text => {
  const numbers = text.match(/\d+/g) ?? []
  const fillings = [{ calculator: 'Pickup', values: [], shown: [], numbers: numbers.length, used: [text] }]
  const { places } = find(text, { numbers, fillings })
  assert.ok(places.every(place => place in [0, 1, 2, 3, 4]) && new Set(places).size === places.length)
})
