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
import { firefox, TONE, webkit } from './driven.mjs'
import { oddHum, wav } from './sounds.mjs'
import { until } from './until.mjs'
import { writeLesson } from './write-lesson.mjs'

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

async function openListening() {
  await driven.open('about:blank')
  await driven.open(`${address}#1/fault/hum.one`)
  await until('the panel', async () => {
    if ((await driven.read('.listen-panel')) === null) await driven.click('.listen summary')
    return (await driven.read('.listen-panel')) !== null
  })
}

async function recording() {
  const file = join(folder, 'hum.wav')
  writeFileSync(file, wav(oddHum(60), 4))
  await openListening()
  await driven.choose('.listen input[type=file]', file)
  await until('the mains', async () => /Mains 60\.00\sHz/.test(await driven.read('.listen-mains')))
  assert.equal(await driven.evaluate("document.querySelector('.listen-families li').dataset.family"), 'mains-odd')
}

/** A rig plays, the source alone after a press, and a key ends it. */
async function rigHeard() {
  await driven.open('about:blank')
  await driven.open(`${address}#1/pickup/lead_length=20_m`)
  await until('the section', async () => (await driven.read('.hear summary')) !== null)
  await until('the panel', async () => {
    if ((await driven.read('.hear-switch')) === null) await driven.click('.hear summary')
    return (await driven.read('.hear-switch')) !== null
  })
  const says = text => async () => (await driven.read('.hear-on')) === text
  await driven.press('.hear-switch')
  await until('this rig', says('You hear this rig.'))
  await driven.press('.hear-switch')
  await until('the source', says('You hear the source alone.'))
  await driven.press('.hear-stop')
  await until('silence', says('It is silent.'))
}

/** The spectrum of the microphone is drawn, and gone once it is off. */
async function microphone([strongest, said]) {
  await openListening()
  await driven.click('.listen-start')
  await until('the microphone', async () => (await driven.read('.listen-on[data-state=on]')) !== null)
  const label = () => driven.evaluate("document.querySelector('.listen-spectrum [role=img]').ariaLabel")
  await until('what is heard', async () => strongest.test(await label()))
  await until('its level', async () => said.test(await driven.read('.listen-said')))
  // A curve goes across the picture: it has something in half of its columns.
  await until('a curve', () =>
    driven.evaluate(`(() => {
      const canvas = document.querySelector('canvas.listen-live')
      const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height)
      const columns = new Set()
      for (let at = 3; at < data.length; at += 4) if (data[at] > 0) columns.add((at >> 2) % canvas.width)
      return columns.size > canvas.width / 2
    })()`),
  )
  await driven.click('.listen-on button')
  await until('it is off', async () => (await driven.read('.listen-on')) === null)
}

for (const [engine, start, program, needed, ...heard] of [
  // A tone of a tenth of full scale.
  [
    ...['Firefox', firefox, process.env.STAGEOHM_FIREFOX, process.env.STAGEOHM_PULSEAUDIO],
    ...[new RegExp(`near ${TONE}\\sHz`), /Level −20 dBFS/],
  ],
  // Beeps, of which none is the strongest for long.
  [
    ...['WebKit', webkit, process.env.STAGEOHM_MINIBROWSER, process.env.STAGEOHM_MINIBROWSER],
    ...[/strongest near/, /Level −\d\d dBFS/],
  ],
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
    test('a lesson is written, tried, and opened from its link', () => writeLesson(driven, address))
    test('the one file answers from disk, and a saved one begins with its values', files)
    test('a recording is heard', recording)
    const mute = needed === undefined && process.env.CI === undefined
    test('the microphone is heard', { skip: mute ? 'it has nothing to put sound out to here' : false }, () =>
      microphone(heard),
    )
    test('a rig is heard', { skip: mute ? 'it has nothing to put sound out to here' : false }, rigHeard)
    test('after one visit it opens without a network', offline)
  })
}
