// The kept cases of `tests/corpus`, and what chance makes of them. The same in every
// run; others with FUZZ_SEED=2, 3 and so on, and more of them with FUZZ_RUNS.

import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { test } from 'node:test'
import fc from 'fast-check'
import { root } from '../../tools/folders.mjs'

const seed = Number(process.env.FUZZ_SEED ?? 1)
const numRuns = Number(process.env.FUZZ_RUNS ?? 500)
fc.configureGlobal({ seed, numRuns, includeErrorInReport: true })

/** A case grows no longer than this, in characters. */
const LONGEST = 20_000
/** What is put in anywhere, besides what stands in the corpus. */
const PIECES = [
  ...['\0', '\x1b', '\r\n', '\u200f', '\u202e', '\ufeff', '\u0301', '\ufffd', '\u{10ffff}', '\ud800', '\udfff', '🎸'],
  ...['%', '%ED%A0%80', '\\ud800', 'NaN', 'Infinity', '1e999', '-1e-999', '__proto__', 'constructor', 'toString'],
  ...['"', '{', '}', '[', ']', '<', '</script>', '<!--', ',', ':', '#', '/', '?', '&', '=', '_', 'ohm', 'Ω', 'null'],
]

/** The cases of a file, one on each line; what begins with a quotation mark is a JSON string. */
export function cases(name) {
  const lines = readFileSync(join(root, 'tests/corpus', `${name}.txt`), 'utf8')
    .replace(/\n$/, '')
    .split('\n')
  return lines.map(line => (line.startsWith('"') ? JSON.parse(line) : line))
}

/** A case of these files after some changes. */
export function mutated(...names) {
  const all = names.flatMap(cases)
  const piece = fc.oneof(
    fc.constantFrom(...PIECES),
    fc.constantFrom(...all),
    fc.string({ unit: 'binary', maxLength: 9 }),
  )
  const change = fc.tuple(fc.nat(5), fc.nat(), fc.nat(), fc.integer({ min: 1, max: 60 }), piece)
  return fc
    .tuple(fc.constantFrom(...all), fc.array(change, { maxLength: 4 }))
    .map(([text, changes]) => changes.reduce(changed, text).slice(0, LONGEST))
}

function changed(text, [what, one, other, count, piece]) {
  const [a, b] = [one % (text.length + 1), other % (text.length + 1)]
  const [from, to] = [Math.min(a, b), Math.max(a, b)]
  const [head, middle, tail] = [text.slice(0, from), text.slice(from, to), text.slice(to)]
  if (what === 0) return head + piece
  if (what === 1) return head + tail
  if (what === 2) return head + middle.repeat(count).slice(0, LONGEST) + tail
  if (what === 3) return head + piece + middle + tail
  if (what === 4) return head + piece + tail
  return head + [...middle].reverse().join('') + tail
}

/** Any text: of the corpus, changed, or made of nothing but chance. */
export function anyText(...names) {
  return fc.oneof({ weight: 3, arbitrary: mutated(...names) }, fc.string({ unit: 'binary' }))
}

/** A test that tries each kept case of an arbitrary, and as many by chance as are wanted. */
export function holds(name, kept, arbitrary, check) {
  test(name, async () => {
    const examples = kept.map(one => [one])
    await fc.assert(
      fc.asyncProperty(arbitrary, async one => check(one)),
      { examples, numRuns: numRuns + examples.length },
    )
  })
}
