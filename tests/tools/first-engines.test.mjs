// Each small engine says what the native engine says, in the same words and to the
// same figures: its calculator empty, every example, every choice, other settings,
// texts that cannot be read, a field that there is none of.

import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import { readFileSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { test } from 'node:test'
import { runInThisContext } from 'node:vm'
import { dist, root } from '../../tools/folders.mjs'
import { calculators, wordsIn } from '../../tools/page-words.mjs'

/** The other engine's sines and powers end in other last digits. */
const FEW = 1e-6

const SETTINGS = [
  { decimal: 'point', length: 'metre', mains: '50', language: 'en' },
  { decimal: 'comma', length: 'foot', mains: '60', language: 'en' },
]

const [glue] = readdirSync(dist).filter(name => /^stageohm-web-\w+\.js$/.test(name))
runInThisContext(
  `location = { href: 'http://here/' }; document = { baseURI: location.href }; ${readFileSync(join(dist, glue), 'utf8')}`,
)

function small(id) {
  const [name] = readdirSync(dist).filter(name => new RegExp(`^first-${id}-[0-9a-f]{16}\\.wasm$`).test(name))
  const engine = globalThis.engineGlue()
  engine.initSync({ module: new WebAssembly.Module(readFileSync(join(dist, name))) })
  assert.ok(engine.bring_words('en', wordsIn(`first-${id}-words.ftl`).toString()))
  return engine
}

function native(input, ...flags) {
  const cargo = ['run', '--release', '--quiet', '--locked', '--package', 'stageohm', '--example', 'solve', '--']
  return execFileSync('cargo', [...cargo, ...flags], { cwd: root, input, encoding: 'utf8', maxBuffer: 2 ** 30 })
}

const described = JSON.parse(native('', '--list'))

test('there is one for each calculator', () => {
  assert.deepEqual(
    calculators(),
    described.map(({ id }) => id),
  )
})

for (const description of described) {
  test(`that of ${description.id}`, () => {
    const engine = small(description.id)
    assert.deepEqual(engine.describe_one(description.id, SETTINGS[0]), description)
    assert.equal(engine.describe_one('no-such', SETTINGS[0]), null)
    assert.throws(() => engine.describe(SETTINGS[0]), /one calculator/)
    const asked = questions(description)
    const answers = native(asked.map(one => JSON.stringify(one)).join('\n'))
      .trim()
      .split('\n')
    assert.equal(answers.length, asked.length)
    asked.forEach((question, index) => {
      const difference = unlike(engine.answer(question), JSON.parse(answers[index]), 'answer')
      assert.equal(difference, null, `${JSON.stringify(question)}: ${difference}`)
    })
  })
}

test('a text means to another reader what it meant to its writer', () => {
  const [from, to] = SETTINGS
  const question = { calculator: 'pickup', values: { lead_length: '6' }, settings: from, working: false }
  // 6 m at 0.3048 m a foot.
  assert.deepEqual(small('pickup').translate(question, to), { values: { lead_length: '19,685 ft' }, wanted: null })
})

function questions({ id, fields, presets }) {
  const values = [
    {},
    ...presets.flatMap(({ values, held }) => [values, ...held].map(pairs => Object.fromEntries(pairs))),
    ...fields.flatMap(({ id, choice }) => (choice?.options ?? []).map(option => ({ [id]: option.id }))),
    { [fields[0].id]: '1.2.3 x' },
    { no_such_field: '1' },
    Object.fromEntries(Array.from({ length: 12 }, (_, at) => [`no_such_${at}`, '1'])),
  ]
  const asked = { calculator: id, backwards: null, cures: false, tolerances: null }
  return values.flatMap(values =>
    // Examples are written with a point and in metres.
    SETTINGS.map((settings, at) => ({ ...asked, values: at === 0 ? values : {}, settings, working: true })),
  )
}

/** Where two answers differ by more than the last digits; null where they do not. */
function unlike(one, other, where) {
  if (typeof one === 'number' && typeof other === 'number') {
    const near = Math.abs(one - other) <= FEW * Math.max(Math.abs(one), Math.abs(other), FEW)
    return near ? null : `${where}: ${one} and ${other}`
  }
  // JSON has no number that is none.
  if (Number.isNaN(one)) return unlike(null, other, where)
  if (one === null || other === null || typeof one !== 'object' || typeof other !== 'object') {
    return one === other ? null : `${where}: ${JSON.stringify(one)} and ${JSON.stringify(other)}`
  }
  const keys = new Set([...Object.keys(one), ...Object.keys(other)])
  for (const key of keys) {
    const difference = unlike(one[key] ?? null, other[key] ?? null, `${where}.${key}`)
    if (difference !== null) return difference
  }
  return null
}
