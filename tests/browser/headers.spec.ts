// The page under the headers that SECURITY.md asks of a host: all of them at once.

import { readFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { test } from '@playwright/test'
import { builtFiles } from '../offline/versions.mjs'
import { answer } from './engine'
import { expect, expectAnswer } from './page'

const asked = [
  ...readFileSync(new URL('../../SECURITY.md', import.meta.url), 'utf8').matchAll(/^\| `([\w-]+)`\s*\| `([^`]+)`/gm),
].map(([, name = '', value = '']) => [name, value] as const)

let server: Server
let address: string

test.beforeAll(async () => {
  const files = builtFiles()
  const types: Readonly<Record<string, string>> = {
    html: 'text/html; charset=utf-8',
    js: 'text/javascript',
    css: 'text/css',
    wasm: 'application/wasm',
    png: 'image/png',
    svg: 'image/svg+xml',
    webmanifest: 'application/manifest+json',
    txt: 'text/plain; charset=utf-8',
  }
  server = createServer((request, response) => {
    const name = new URL(request.url ?? '/', 'http://host').pathname.slice(1) || 'index.html'
    for (const [header, value] of asked) response.setHeader(header, value)
    const body = files.get(name)
    response.setHeader('Content-Type', types[name.replace(/.*\./, '')] ?? 'application/octet-stream')
    response.statusCode = body === undefined ? 404 : 200
    response.end(body ?? '')
  })
  await new Promise<void>(done => server.listen(0, '127.0.0.1', done))
  address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`
})

test.afterAll(() => {
  server.closeAllConnections()
  server.close()
})

test('a calculator by its link', async ({ page }) => {
  expect(asked.length).toBeGreaterThanOrEqual(6)
  await page.goto(`${address}#1/pickup/load_r=140k`)
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
})

test('a lesson with its frames', async ({ page }) => {
  await page.goto(`${address}lesson.html`)
  await expect(page.frameLocator('iframe').first().locator('.answer')).toBeVisible()
})

test('the one file', async ({ page }) => {
  await page.goto(`${address}stageohm.html#1/levels`)
  await expectAnswer(page, answer('levels'))
})
