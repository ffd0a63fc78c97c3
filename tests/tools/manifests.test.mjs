// The manifests of packages, by the schemas of the standards: of SCORM those that the
// standard itself has copied into packages, of cmi5 what its text asks for. See
// tests/fixtures/schemas.

import assert from 'node:assert/strict'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { test } from 'node:test'
import { validateXML } from 'xmllint-wasm'
import { root } from '../../tools/folders.mjs'
import { pageWith } from '../fuzz/page.mjs'

const { manifest } = pageWith('lesson/package/manifest.ts')().manifest

const folder = join(root, 'tests/fixtures/schemas')
const files = ['index.html', 'launch.js', 'stageohm.html', 'lesson.json']

/** What a manifest may be made of: elements of several namespaces, each by its own schema. */
const SCHEMAS = {
  scorm12: {
    'http://www.imsproject.org/xsd/imscp_rootv1p1p2': 'imscp_rootv1p1p2.xsd',
    'http://www.adlnet.org/xsd/adlcp_rootv1p2': 'adlcp_rootv1p2.xsd',
  },
  scorm2004: {
    'http://www.imsglobal.org/xsd/imscp_v1p1': 'imscp_v1p1.xsd',
    'http://www.adlnet.org/xsd/adlcp_v1p3': 'adlcp_v1p3.xsd',
    'http://www.imsglobal.org/xsd/imsss': 'imsss_v1p0.xsd',
  },
}

/** What is wrong with a manifest, by its standard. */
async function faultsOf(standard, text) {
  const xml = [{ fileName: 'manifest.xml', contents: text }]
  const { errors } = await validateXML({ xml, ...rulesOf(standard) })
  return errors.map(({ message }) => message)
}

function rulesOf(standard) {
  const read = file => readFileSync(join(folder, standard, file), 'utf8')
  if (standard === 'cmi5') return { schema: read('written.rng'), extension: 'relaxng' }
  const imports = Object.entries(SCHEMAS[standard]).map(
    ([namespace, file]) => `<xs:import namespace="${namespace}" schemaLocation="${file}"/>`,
  )
  return {
    schema: `<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema">${imports.join('')}</xs:schema>`,
    preload: readdirSync(join(folder, standard)).map(file => ({ fileName: file, contents: read(file) })),
  }
}

const plain = { id: 'half', revision: 3, title: 'Half the voltage', language: 'en', pass: 0.5, files }
const AWKWARD = {
  plain: {},
  'marks of XML': { id: '<a href="x">&amp;', title: `"Quotes", 'more', <b> & ]]> &amp; <!-- -->` },
  'beyond the alphabet': { id: 'größe 🎸', title: '🎸🔌 تأريض 接地', language: 'ar' },
  'from right to left': { title: '\u202eطنين الأرض\u202c', language: 'ar-EG' },
  nothing: { id: '', title: '', language: '', pass: 0 },
  'no points to be had': { pass: null },
  blanks: { id: '  ', title: ' \n\t', language: ' ' },
  'a long one': { id: 'x'.repeat(4000), title: 'y '.repeat(2000) },
  'what XML has no place for': { id: '\u0000\ud800', title: 'a\u0000b\u000bc\ud800d\uffff', language: 'no language' },
  'a digit first': { id: '1', revision: 0 },
  'a share that no decimal ends': { pass: 2 / 3 },
  'a tiny share': { pass: 1e-7 },
  'all of it': { pass: 1, revision: 2 ** 32 },
}

for (const standard of ['scorm12', 'scorm2004', 'cmi5']) {
  for (const [what, part] of Object.entries(AWKWARD)) {
    test(`a manifest by ${standard} is as its schema has it: ${what}`, async () => {
      const [, text] = manifest(standard, { ...plain, ...part })
      assert.deepEqual(await faultsOf(standard, text), [])
    })
  }
}

// The schema of SCORM 1.2 takes any text there; a share just reached has to pass by every rounding.
test('the share that passes is a number, and none above what the lesson has', () => {
  const wanted = {
    scorm12: [/<adlcp:masteryscore>([^<]*)</, 100],
    scorm2004: [/<imsss:minNormalizedMeasure>([^<]*)</, 1],
    cmi5: [/masteryScore="([^"]*)"/, 1],
  }
  for (const [standard, [place, most]] of Object.entries(wanted)) {
    for (const pass of [0, 1e-7, 0.29, 0.5, 0.57, 2 / 3, 0.7, 1]) {
      const said = place.exec(manifest(standard, { ...plain, pass })[1])[1]
      assert.match(said, /^\d{1,3}(\.\d{1,7})?$/)
      assert.ok(Number(said) <= most * pass + 1e-9 && Number(said) > most * pass - 0.01, `${said} for ${pass}`)
    }
  }
})

test('where there are no points to be had no share is asked for', () => {
  for (const standard of ['scorm12', 'scorm2004', 'cmi5'])
    assert.doesNotMatch(manifest(standard, { ...plain, pass: null })[1], /mastery|measure/i)
})

const BROKEN = {
  scorm12: [
    ['identifier="lesson-half"', 'identifier="1 half"'],
    ['identifierref="resource"', 'reference="resource"'],
    ['adlcp:scormtype="sco"', 'adlcp:scormtype="page"'],
    ['<adlcp:masteryscore>50', `<adlcp:masteryscore>${'5'.repeat(201)}`],
    ['<file href="launch.js"/>', '<file/>'],
    ['<metadata>', '<metadata><title>One</title>'],
  ],
  scorm2004: [
    ['identifier="lesson-half"', 'identifier="1 half"'],
    ['adlcp:scormType="sco"', 'adlcp:scormType="page"'],
    ['<imsss:minNormalizedMeasure>0.5', '<imsss:minNormalizedMeasure>50'],
    ['completionSetByContent="true"', 'completionSetByContent="perhaps"'],
    ['<file href="launch.js"/>', '<file/>'],
  ],
  cmi5: [
    ['<course id="urn:', '<course id="no iri '],
    ['moveOn="CompletedOrPassed"', 'moveOn="Whenever"'],
    ['masteryScore="0.5"', 'masteryScore="50"'],
    ['masteryScore="0.5"', 'masteryScore="5e-1"'],
    ['<url>index.html</url>', ''],
    ['<url>index.html</url>', '<url></url>'],
    ['launchMethod="AnyWindow"', 'launchMethod="NoWindow"'],
    [/<title>.*\n {4}<description>/, '<description>'],
    [/( *<title>.*\n)( *<description>.*\n)/, '$2$1'],
  ],
}

for (const [standard, broken] of Object.entries(BROKEN)) {
  for (const [is, becomes] of broken) {
    test(`a manifest by ${standard} with ${becomes.slice(0, 60) || 'nothing'} in place of ${is} is refused`, async () => {
      const [, text] = manifest(standard, plain)
      const other = text.replace(is, becomes)
      assert.notEqual(other, text)
      assert.notDeepEqual(await faultsOf(standard, other), [])
    })
  }
}

test('lessons that are called otherwise are others to a record store', () => {
  const idsOf = id => [...manifest('cmi5', { ...plain, id })[1].matchAll(/id="(urn:[^"]+)"/g)].map(([, id]) => id)
  const all = ['half', 'größe', 'grosse', 'gr--e', 'a b', 'a-b', 'a%20b', '', '-'].flatMap(idsOf)
  assert.equal(all.length, 18)
  assert.equal(new Set(all).size, all.length)
})
