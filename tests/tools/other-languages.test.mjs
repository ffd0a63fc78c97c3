// What the page does with words, in languages other than English too.

import assert from 'node:assert/strict'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { test } from 'node:test'
import { root } from '../../tools/folders.mjs'
import { pageWith } from '../fuzz/page.mjs'

const { terms, within } = pageWith('start/terms.ts', 'base/within.ts')()

/** How a search reads words in a language, by its own catalogue. */
function termsOf(language) {
  const text = readFileSync(join(root, `crate/src/words/${language}.ftl`), 'utf8')
  const said = key => new RegExp(`^page-find-${key} = (.*)$`, 'm').exec(text)[1]
  return terms.makeTerms(said)
}

// Plurals after the Ortografía and the Gramática of the Real Academia Española, from memory:
// -s after a vowel, -es after a consonant.
test('several are found as one is', () => {
  for (const [language, pairs] of [
    ['en', ['lead leads', 'pad pads', 'loss loss', 'keys keyboard', 'adaptors adapter']],
    ['es', ['conector conectores', 'fuente fuentes', 'nivel niveles', 'red redes', 'pedal pedales', 'fase fases']],
    ['es', ['señal señales', 'SEÑAL senales', 'guitarra guitarras', 'cable cables', 'blindajes pantalla']],
  ]) {
    const { all } = termsOf(language)
    for (const [one, other] of pairs.map(pair => pair.split(' '))) assert.deepEqual(all(one), all(other), one)
  }
})

test('words that differ stay apart', () => {
  for (const [language, one, other] of [
    ['en', 'key', 'keyboard'],
    ['en', 'bas', 'bass'],
    ['es', 'masa', 'mes'],
    ['es', 'cable', 'caja'],
  ]) {
    const { all } = termsOf(language)
    assert.notDeepEqual(all(one), all(other), `${one}, ${other}`)
  }
})

test('a name inside a sentence begins small, and letters said one by one do not', () => {
  for (const [name, inside] of [
    ['Ground loop', 'ground loop'],
    ['Hum', 'hum'],
    ['A loop', 'a loop'],
    ['DI box', 'DI box'],
    ['Último cable', 'último cable'],
    ['Áspero', 'áspero'],
    ['Señal: ninguna', 'señal: ninguna'],
    ['Ñ', 'Ñ'],
  ]) {
    assert.equal(within.within(name), inside)
  }
})
