// Whoever has the page keeps it, whatever an upload makes of the next version.

import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { builtFiles, keptNames, mishaps, renewedFiles, uploaded } from './versions.mjs'
import { Caches, fileOf, Host, pageOf, Worker } from './worker.mjs'

let folder, old, renewed

before(() => {
  folder = mkdtempSync(join(tmpdir(), 'stageohm-'))
  old = builtFiles()
  renewed = renewedFiles(join(folder, 'renewed'))
})
after(() => rmSync(folder, { recursive: true }))

/** A reader who has the old version, which has started. */
async function reader() {
  const [host, caches] = [new Host(), new Caches()]
  host.files = old
  const worker = new Worker(host, caches)
  await worker.install()
  await worker.activate()
  await worker.hear({ started: pageOf(old) })
  return { host, caches, worker }
}

/** The version that the host has now, which has taken over. */
async function taken(host, caches) {
  const next = new Worker(host, caches)
  await next.install()
  await next.activate()
  return next
}

test('each file and each pair of files of a new version old, missing or cut short', async () => {
  const { host, caches, worker } = await reader()
  const [first] = await caches.keys()
  // What people edit is not part of a version, and a script of the old version is no new one.
  const names = keptNames(renewed).filter(name => name !== 'service-worker.js')
  const script = renewed.get('service-worker.js')
  let tried = 0
  for (const states of mishaps(names)) {
    host.files = uploaded(old, renewed, states)
    const next = new Worker({ ...host, fetch: host.fetch, files: new Map([['service-worker.js', script]]) }, caches)
    await assert.rejects(next.install(), JSON.stringify(states))
    assert.equal(next.skipped, false)
    for (const name of await caches.keys()) if (name !== first && /[0-9a-f]{16}$/.test(name)) await caches.delete(name)
    tried += 1
  }
  assert.equal(tried, names.length * 3 + ((names.length * (names.length - 1)) / 2) * 9)
  host.isThere = false
  for (const name of keptNames(old)) {
    if (name === 'service-worker.js') continue
    assert.deepEqual(await worker.ask(name, name.endsWith('.html') ? 'navigate' : undefined), old.get(name), name)
  }
})

test('what came whole is kept for the next try, and the new version waits once it is whole', async () => {
  const { host, caches } = await reader()
  const [name] = keptNames(renewed).filter(name => name.endsWith('.wasm'))
  host.files = uploaded(old, renewed, { [name]: 'cut' })
  const next = new Worker(host, caches)
  await assert.rejects(next.install())
  host.files = new Map([...renewed].filter(([known]) => known === name || known === 'service-worker.js'))
  await next.install()
  assert.equal(next.skipped, false)
})

test('the languages in use are kept, and of them not what answers a first visit', async () => {
  const isSpanish = name => name.startsWith('words-es-')
  const isFirst = name => /\/first-/.test(name)
  const { host, caches, worker } = await reader()
  assert.deepEqual((await keptOf(caches, await caches.keys())).filter(isSpanish), [])
  const spanish = [...old.keys()].filter(isSpanish)
  assert.ok(spanish.some(isFirst))
  const wanted = spanish.filter(name => !isFirst(name))
  // Spanish stays, also once a single tab was in another language.
  for (const language of ['es', 'en']) {
    await worker.hear({ started: pageOf(old), language })
    assert.deepEqual((await keptOf(caches, await caches.keys())).filter(isSpanish), wanted)
  }
  const before = await caches.keys()
  host.files = renewed
  await new Worker(host, caches).install()
  const added = (await caches.keys()).filter(name => !before.includes(name))
  assert.deepEqual((await keptOf(caches, added)).filter(isSpanish).map(nameOf), wanted.map(nameOf))
})

/** The names of the files in these caches, in order. */
async function keptOf(caches, names) {
  const addresses = await Promise.all(names.map(async name => (await caches.open(name)).addresses()))
  return addresses.flat().map(fileOf).sort()
}

/** What a file is called in every version. */
function nameOf(file) {
  return file.replace(/-[0-9a-f]{10,16}(?=[./])/g, '')
}

test('a new version does not wait where nothing is known to start', async () => {
  const [host, caches] = [new Host(), new Caches()]
  host.files = old
  const worker = new Worker(host, caches)
  await worker.install()
  assert.equal(worker.skipped, true)
  await worker.activate()
  // It does not tell that it started.
  host.files = renewed
  const next = new Worker(host, caches)
  await next.install()
  assert.equal(next.skipped, true)
})

test('a log-in page in the place of every file changes nothing', async () => {
  const { host, caches, worker } = await reader()
  host.files = renewed
  const next = new Worker(host, caches)
  host.portal = Buffer.from('<h1>Welcome to the hotel</h1>')
  await assert.rejects(next.install())
  assert.deepEqual(await worker.ask('', 'navigate'), old.get('index.html'))
  // A lesson shows it, since the reader has to log in, and keeps it not.
  assert.deepEqual(await worker.ask('lesson.html', 'navigate'), host.portal)
  host.isThere = false
  assert.deepEqual(await worker.ask('lesson.html', 'navigate'), old.get('lesson.html'))
})

test('a version that tells it does not start gives way to the one before, then to what the host has', async () => {
  const { host, caches } = await reader()
  host.files = renewed
  const next = await taken(host, caches)
  assert.deepEqual(await next.ask('', 'navigate'), renewed.get('index.html'))
  await next.hear({ failed: pageOf(renewed) })
  assert.deepEqual(await next.ask('', 'navigate'), old.get('index.html'))
  for (const name of await caches.keys()) if (!name.endsWith('notes')) await caches.delete(name)
  host.files = old
  assert.deepEqual(await next.ask('', 'navigate'), old.get('index.html'))
})

test('a version that tells nothing is opened twice, then the one before', async () => {
  const { host, caches } = await reader()
  host.files = renewed
  const next = new Worker(host, caches)
  await next.install()
  const opened = async () => ((await next.ask('', 'navigate')).equals(renewed.get('index.html')) ? 'new' : 'old')
  assert.deepEqual([await opened(), await opened(), await opened(), await opened()], ['new', 'new', 'old', 'old'])
})

test('a lesson that the host cannot give now is shown as it was kept; one that it has taken away is gone', async () => {
  const { host, worker } = await reader()
  host.files = new Map([...old].filter(([name]) => name !== 'lesson.html'))
  host.status = 503
  assert.deepEqual(await worker.ask('lesson.html', 'navigate'), old.get('lesson.html'))
  host.status = 404
  assert.equal((await worker.ask('lesson.html', 'navigate')).toString(), 'not here')
  host.isThere = false
  await assert.rejects(worker.ask('lesson.html', 'navigate'))
})

test('a lesson is kept in advance where the host leaves out its ending', async () => {
  const [host, caches] = [new Host(), new Caches()]
  host.files = old
  host.leavesOutEnding = true
  const worker = new Worker(host, caches)
  await worker.install()
  host.isThere = false
  for (const name of ['lesson', 'lesson.html']) {
    assert.deepEqual(await worker.ask(name, 'navigate'), old.get('lesson.html'), name)
  }
})

test('a lesson that stops half-way is shown as it was kept', async () => {
  const { host, worker } = await reader()
  host.stalls = true
  assert.deepEqual(await worker.ask('lesson.html', 'navigate', false), old.get('lesson.html'))
})

test('a version that failed once gets another chance a day later', async () => {
  const { host, caches } = await reader()
  host.files = renewed
  const next = await taken(host, caches)
  await next.hear({ failed: pageOf(renewed) })
  assert.deepEqual(await next.ask('', 'navigate'), old.get('index.html'))
  host.later = 25 * 3_600_000
  assert.deepEqual(await next.ask('', 'navigate'), renewed.get('index.html'))
  await next.hear({ failed: pageOf(renewed) })
  assert.deepEqual(await next.ask('', 'navigate'), old.get('index.html'))
  await next.hear({ started: pageOf(renewed) })
  assert.deepEqual(await next.ask('', 'navigate'), renewed.get('index.html'))
})

test('a version that shares its main script with the one before is not taken for it', async () => {
  const { host, caches } = await reader()
  // Only the engine is another one.
  const engine = keptNames(old).find(name => name.endsWith('.wasm'))
  const other = renewedFiles(join(folder, 'engine'), 'engine', { only: engine })
  host.files = other
  const next = await taken(host, caches)
  await next.hear({ failed: pageOf(other) })
  assert.deepEqual(await next.ask('', 'navigate'), old.get('index.html'))
  await next.hear({ started: pageOf(old) })
  assert.deepEqual(await next.ask('', 'navigate'), old.get('index.html'))
  host.isThere = false
  assert.deepEqual(await next.ask('', 'navigate'), old.get('index.html'))
})

test('a version that has just started leaves alone the next one that is on its way', async () => {
  const [host, caches] = [new Host(), new Caches()]
  host.files = old
  const worker = new Worker(host, caches, { installing: {} })
  await worker.install()
  const next = { ...host, fetch: host.fetch, files: renewed }
  host.files = renewed
  await new Worker(next, caches).install()
  host.files = old
  await worker.hear({ started: pageOf(old) })
  host.isThere = false
  const names = (await caches.keys()).filter(name => /[0-9a-f]{16}$/.test(name))
  assert.equal(names.length, 2)
})

test('half of an upload never stands in', async () => {
  const { host, caches, worker } = await reader()
  host.files = uploaded(old, renewed, { [[...renewed.keys()].find(name => name.startsWith('main-'))]: 'missing' })
  await assert.rejects(new Worker(host, caches).install())
  await worker.hear({ failed: pageOf(old) })
  host.isThere = false
  assert.deepEqual(await worker.ask('', 'navigate'), old.get('index.html'))
})

test('a storage that takes nothing more does not keep the page from opening', async () => {
  const { host, caches } = await reader()
  host.files = renewed
  const next = await taken(host, caches)
  caches.isFull = true
  assert.deepEqual(await next.ask('', 'navigate'), renewed.get('index.html'))
})
