// The main journeys in two more engines than that of the other tests: what phones
// with WebKit and readers with Firefox do with the page.

import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, afterEach, before, describe, test } from 'node:test'
import { pathToFileURL } from 'node:url'
import sirv from 'sirv'
import { dist, root } from '../../tools/folders.mjs'
import { firefox, until, webkit } from './driven.mjs'

const LEAD = '.answer .lead .value'

/** What the native engine answers first, as a page writes it. */
function headline(calculator, values) {
  const args = ['run', '--quiet', '--locked', '--package', 'stageohm', '--example', 'solve']
  const input = JSON.stringify({ calculator, values })
  const { report } = JSON.parse(execFileSync('cargo', args, { cwd: root, input, encoding: 'utf8' }))
  return report.headline[0].text
}

function listening() {
  const give = sirv(dist)
  const server = createServer((request, response) =>
    give(request, response, () => {
      response.statusCode = 404
      response.end()
    }),
  )
  return new Promise(done => server.listen(0, '127.0.0.1', () => done(server)))
}

/** An engine under way: its browser, the host of the page, a folder for files. */
let driven, server, address, folder

/** Waits for this text as the first answer. */
function answers(text, where = driven) {
  const read = async () => ((await where.read(LEAD)) ?? '').replace(/copy$/, '')
  return until(`${text} as the answer`, async () => (await read()).includes(text))
}

async function link() {
  await driven.open(`${address}#1/pickup/load_r=140k`)
  await answers(headline('pickup', { load_r: '140k' }))
  await driven.type('[data-field="lead_length"] input[type=text]', '12 m')
  await answers(headline('pickup', { load_r: '140k', lead_length: '12 m' }))
  await until('the address follows', async () => (await driven.evaluate('location.hash')).includes('lead_length=12'))
}

async function search() {
  await driven.open(address)
  await until('the search', async () => (await driven.value('#find')) !== null)
  await driven.type('#find', 'phantom 80 m')
  await until('what was found', async () => (await driven.read('.hits li .title')) === 'Phantom supply')
  await driven.click('.hits li a')
  await answers(headline('phantom', { lead_length: '80 m' }))
}

async function lesson() {
  await driven.open(`${address}lesson.html`)
  const frame = await until('the first frame', () => driven.frame(0))
  await answers(headline('pickup', { lead_length: '12 m' }), frame)
  await driven.out()
}

async function files() {
  const file = join(folder, 'stageohm.html')
  const whole = readFileSync(join(dist, 'stageohm.html'), 'utf8')
  writeFileSync(file, whole)
  await driven.open(`${pathToFileURL(file).href}#1/levels/level=4`)
  await answers(headline('levels', { level: '4' }))
  const saved = join(folder, 'saved.html')
  const beginning = JSON.stringify({ hash: '#1/pickup/load_r=10k', settings: {} })
  const block = beginning => `<script id="beginning" type="application/json">${beginning}</script>`
  assert.ok(whole.includes(block('{}')))
  writeFileSync(
    saved,
    whole.replace(block('{}'), () => block(beginning)),
  )
  await driven.open(pathToFileURL(saved).href)
  await answers(headline('pickup', { load_r: '10k' }))
}

async function offline() {
  await driven.open(address)
  await until('it is kept', async () => (await driven.read('.offline[data-kept="stored"]')) !== null)
  server.closeAllConnections()
  await new Promise(done => server.close(done))
  await driven.open(`${address}#1/phantom`)
  await driven.again()
  await answers(headline('phantom', {}))
}

for (const [engine, start, program] of [
  ['Firefox', firefox, process.env.STAGEOHM_FIREFOX],
  ['WebKit', webkit, process.env.STAGEOHM_MINIBROWSER],
]) {
  // Where all tests have to run, none is left out.
  const skip = program === undefined && process.env.CI === undefined ? 'it is not installed here' : false
  describe(engine, { skip }, () => {
    before(async () => {
      server = await listening()
      address = `http://127.0.0.1:${server.address().port}/`
      folder = mkdtempSync(join(tmpdir(), 'engines-'))
      driven = await start()
    })
    after(async () => {
      await driven?.close()
      server?.closeAllConnections()
      server?.close()
      rmSync(folder, { recursive: true, force: true })
    })
    afterEach(() => assert.deepEqual(driven.troubles.splice(0), []))
    test('a link opens the served page with its values, and what is typed is answered', link)
    test('a question finds its calculator with the values in it', search)
    test('a lesson frames its calculators', lesson)
    test('the one file answers from disk, and a saved one begins with its values', files)
    test('after one visit it opens without a network', offline)
  })
}
