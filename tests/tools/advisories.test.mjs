// What the database of advisories says decides, and where it is silent that is said.
// The answers have the shape of https://google.github.io/osv.dev/post-v1-querybatch/:
// one result for each query in its order, empty where nothing is known, and a token
// where there is another page.

import assert from 'node:assert/strict'
import { spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { createServer } from 'node:http'
import { after, test } from 'node:test'
import { check, libraries } from '../../tools/advisories.mjs'

const root = new URL('../..', import.meta.url)
const servers = []
after(() => servers.forEach(server => server.close()))

/** A database on this machine: `answer` makes of the queries what is sent, with its status. */
async function database(answer) {
  const asked = []
  const server = createServer(async (request, response) => {
    const text = (await request.toArray()).join('')
    const { queries } = JSON.parse(text)
    asked.push({ method: request.method, url: request.url, queries })
    const { status = 200, body } = answer(queries)
    response.statusCode = status
    response.end(typeof body === 'string' ? body : JSON.stringify(body))
  })
  servers.push(server)
  await new Promise(listening => server.listen(0, '127.0.0.1', listening))
  return { address: `http://127.0.0.1:${server.address().port}`, asked, close: () => server.close() }
}

/** A database that knows an advisory of one library and of no other. */
const knows = (library, id) =>
  database(queries => ({
    body: {
      results: queries.map(({ package: { name } }) =>
        name === library ? { vulns: [{ id, modified: '2026-01-01T00:00:00Z' }] } : {},
      ),
    },
  }))

const two = [
  { ecosystem: 'crates.io', name: 'first', version: '1.0.0' },
  { ecosystem: 'npm', name: '@some/second', version: '2.0.0' },
]

/** The command as it is run by hand, asking another database. */
async function command(address) {
  const env = { ...process.env, STAGEOHM_ADVISORIES: address }
  const program = spawn(process.execPath, ['tools/main.mjs', 'advisories'], { cwd: root, env })
  let printed = ''
  for (const stream of [program.stdout, program.stderr]) stream.on('data', data => (printed += data))
  const status = await new Promise(done => program.on('close', done))
  return { status, printed }
}

test('every library of both lock files is asked about, at its version', () => {
  const asked = libraries().map(({ ecosystem, name, version }) => `${ecosystem} ${name} ${version}`)
  const lock = readFileSync(new URL('Cargo.lock', root), 'utf8')
  const crates = lock.matchAll(/^name = "(.+)"\nversion = "(.+)"\nsource = /gm)
  const { packages } = JSON.parse(readFileSync(new URL('package-lock.json', root), 'utf8'))
  const nested = Object.keys(packages).filter(place => place.split('node_modules/').length > 2)
  assert.ok(nested.length > 0)
  const wanted = [...crates].map(([, name, version]) => `crates.io ${name} ${version}`)
  for (const [place, { version }] of Object.entries(packages)) {
    if (place !== '') wanted.push(`npm ${place.split('node_modules/').at(-1)} ${version}`)
  }
  assert.deepEqual([...asked].sort(), [...new Set(wanted)].sort())
  assert.ok(!asked.some(one => one.includes('stageohm')))
})

test('a library with a known fault ends the command, which names it', async () => {
  const { address, asked } = await knows('preact', 'GHSA-0000-0000-0001')
  const { status, printed } = await command(address)
  assert.equal(status, 1)
  const { version } = libraries().find(({ name }) => name === 'preact')
  assert.ok(printed.includes(`GHSA-0000-0000-0001: preact ${version},`), printed)
  assert.match(printed, /known fault/)
  assert.equal(asked[0].method, 'POST')
  assert.equal(asked[0].url, '/v1/querybatch')
  const query = asked[0].queries.find(({ package: { name } }) => name === 'preact')
  assert.deepEqual(query, { package: { ecosystem: 'npm', name: 'preact' }, version })
})

test('where none has one it says so and passes', async () => {
  const { address } = await knows('nothing of ours', 'GHSA-0000-0000-0001')
  const { status, printed } = await command(address)
  assert.equal(status, 0, printed)
  assert.match(printed, /^\d+ libraries, none with a known fault/m)
})

test('a database out of reach is said once, and passes', async () => {
  const { address, close } = await knows('preact', 'GHSA-0000-0000-0001')
  close()
  const { status, printed } = await command(address)
  assert.equal(status, 0, printed)
  assert.match(printed, /^Not checked: http:\/\/127\.0\.0\.1:\d+ could not be reached \(.*ECONNREFUSED.*\)\n$/)
})

test('no answer, and none that can be read, is out of reach', async () => {
  for (const [answer, why] of [
    [{ status: 503, body: { results: [{}, {}] } }, /503/],
    [{ body: '<html>Log in to this network</html>' }, /cannot be read/],
    [{ body: 'null' }, /cannot be read/],
    [{ body: { results: [{}] } }, /cannot be read/],
    [{ body: { results: [{}, null] } }, /cannot be read/],
    [{ body: { results: [{}, { vulns: [{}] }] } }, /cannot be read/],
    [{ body: { results: [{}, { vulns: { id: 'X' } }] } }, /cannot be read/],
  ]) {
    const { address } = await database(() => answer)
    const { found, unreached } = await check(two, [], address)
    assert.deepEqual(found, [])
    assert.match(unreached, why, JSON.stringify(answer))
  }
})

test('a question that the database does not take is our fault', async () => {
  const { address } = await database(() => ({ status: 400, body: { code: 3, message: 'Invalid query' } }))
  await assert.rejects(check(two, [], address), /400.*Invalid query/)
})

test('what does not fit on one page is asked for again, and that alone', async () => {
  const { address, asked } = await database(queries => ({
    body: {
      results: queries.map(({ package: { name }, page_token }) => {
        if (name === 'first') return {}
        if (page_token === undefined) return { vulns: [{ id: 'A' }], next_page_token: 'second' }
        if (page_token === 'second') return { next_page_token: 'third' }
        return { vulns: [{ id: 'B' }] }
      }),
    },
  }))
  const { found, unreached } = await check(two, [], address)
  assert.equal(unreached, null)
  assert.deepEqual(
    found.map(({ id, name }) => `${id} ${name}`),
    ['A @some/second', 'B @some/second'],
  )
  const second = { package: { ecosystem: 'npm', name: '@some/second' }, version: '2.0.0' }
  assert.deepEqual(
    asked.slice(1).map(({ queries }) => queries),
    [[{ ...second, page_token: 'second' }], [{ ...second, page_token: 'third' }]],
  )
})

test('no more are asked about at once than the database takes', async () => {
  const { address, asked } = await knows('library 1500', 'A')
  const many = Array.from({ length: 1501 }, (_, i) => ({ ecosystem: 'npm', name: `library ${i}`, version: '1.0.0' }))
  const { found } = await check(many, [], address)
  assert.deepEqual(
    asked.map(({ queries }) => queries.length),
    [1000, 501],
  )
  assert.equal(found[0].name, 'library 1500')
})

test('what was found before the database fell silent is told', async () => {
  let times = 0
  const { address } = await database(() =>
    times++ === 0
      ? { body: { results: [{ vulns: [{ id: 'A' }], next_page_token: 'more' }, {}] } }
      : { status: 502, body: '' },
  )
  const { found, unreached } = await check(two, [], address)
  assert.deepEqual(
    found.map(({ id }) => id),
    ['A'],
  )
  assert.match(unreached, /502/)
})

test('an excuse holds for its library, and fails once nothing asks for it', async () => {
  const { address } = await knows('first', 'A')
  const excuse = { id: 'A', name: 'first', reason: 'only tests call it' }
  const held = await check(two, [excuse], address)
  assert.deepEqual(held.found, [])
  assert.deepEqual(held.excused, [{ id: 'A', name: 'first', version: '1.0.0', reason: 'only tests call it' }])
  assert.deepEqual(held.needless, [])
  const other = { ...excuse, name: '@some/second' }
  const idle = await check(two, [other], address)
  assert.deepEqual(
    idle.found.map(({ name }) => name),
    ['first'],
  )
  assert.deepEqual(idle.needless, [other])
  // Where nothing was heard, nothing is known of the excuse either.
  const { address: silent } = await database(() => ({ status: 500, body: '' }))
  assert.deepEqual((await check(two, [other], silent)).needless, [])
})
