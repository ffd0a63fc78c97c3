// How soon a first visit is answered from a bad network, on a processor slowed down
// four times: 1.6 Mbit/s, and 150 ms there and back.

import { chromium as browserType } from '@playwright/test'
import { createServer } from 'node:http'
import { readFileSync } from 'node:fs'
import { extname, join, normalize } from 'node:path'
import { gzipSync } from 'node:zlib'
import { times } from './brief.mjs'
import { say } from './command.mjs'
import { dist } from './folders.mjs'
import { chromium } from './system-programs.mjs'

const SLOWER = 4
const NETWORK = { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 0.75e6 / 8 }
const VISITS = times(5)
const TYPES = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.wasm': 'application/wasm' }

const cases = [
  ['the start page takes what is typed', '', '#start[hidden]'],
  ['levels answers', '#1/levels', '.answer .headline'],
  ['pickup answers', '#1/pickup', '.answer .headline'],
  ['box or straight answers', '#1/box-or-straight', '.answer .headline'],
]

export async function benchNetwork() {
  say('A first visit at 1.6 Mbit/s, 150 ms away, four times slowed down, middle and longest')
  const server = await listening()
  const browser = await browserType.launch({ executablePath: chromium(), chromiumSandbox: process.getuid?.() !== 0 })
  try {
    for (const [name, hash, until] of cases) {
      const visits = []
      for (let visit = 0; visit < VISITS; visit++) {
        visits.push(await timeVisit(browser, `http://127.0.0.1:${server.address().port}/${hash}`, until))
      }
      const sorted = visits.toSorted((a, b) => a - b)
      const told = [sorted[sorted.length >> 1], sorted.at(-1)].map(time => `${(time / 1000).toFixed(2)} s`.padStart(10))
      console.log(`${name.padEnd(42)} ${told.join(' ')}  goal: 3 s`)
    }
  } finally {
    await browser.close()
    server.close()
  }
}

/** A browser that has never been here. */
async function timeVisit(browser, address, until) {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 } })
  try {
    const page = await context.newPage()
    const session = await context.newCDPSession(page)
    await session.send('Network.enable')
    await session.send('Network.emulateNetworkConditions', NETWORK)
    await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER })
    await page.addInitScript(until => {
      const look = () => {
        if (document.querySelector(until)) window.readyAt = performance.now()
        else requestAnimationFrame(look)
      }
      look()
    }, until)
    await page.goto(address, { waitUntil: 'commit' })
    const time = await page.waitForFunction(() => window.readyAt, undefined, { timeout: 60_000 })
    return await time.jsonValue()
  } finally {
    await context.close()
  }
}

/** A host that sends files packed, as hosts do. */
function listening() {
  const packed = new Map()
  const server = createServer((request, response) => {
    const path = normalize(new URL(request.url, 'http://here').pathname)
    const name = path === '/' ? '/index.html' : path
    try {
      if (!packed.has(name)) packed.set(name, gzipSync(readFileSync(join(dist, name))))
      const type = TYPES[extname(name)] ?? 'application/octet-stream'
      response.writeHead(200, { 'Content-Type': type, 'Content-Encoding': 'gzip', 'Cache-Control': 'no-cache' })
      response.end(packed.get(name))
    } catch {
      response.writeHead(404).end()
    }
  })
  return new Promise(done => server.listen(0, '127.0.0.1', () => done(server)))
}
