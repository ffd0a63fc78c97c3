// The served page after one visit: without a network, and with a new version.

import { cpSync, readFileSync, writeFileSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { test as plain, type Page } from '@playwright/test'
import sirv from 'sirv'
import { answer } from './engine'
import { expect, expectAnswer, field, input } from './page'

const dist = fileURLToPath(new URL('../../dist/', import.meta.url))

interface Host {
  readonly address: string
  /** Puts another version of the page where the first one was. */
  renew(): void
  stop(): Promise<void>
}

const test = plain.extend<{ host: Host }>({
  host: async ({}, use, info) => {
    const folder = info.outputPath('host')
    cpSync(dist, folder, { recursive: true })
    const server: Server = createServer(sirv(folder, { dev: true }))
    await new Promise<void>(done => server.listen(0, '127.0.0.1', done))
    const change = (file: string, from: RegExp, to: string) => {
      const path = join(folder, file)
      const text = readFileSync(path, 'utf8')
      expect(text).toMatch(from)
      writeFileSync(path, text.replace(from, to))
    }
    const host = {
      address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
      renew: () => {
        change('service-worker.js', /VERSION = "\w+"/, 'VERSION = "renewed"')
        change('index.html', /<html lang=en>/, '<html lang=en data-renewed>')
      },
      stop: () => {
        server.closeAllConnections()
        return new Promise<void>(done => server.close(() => done()))
      },
    }
    await use(host)
    await host.stop().catch(() => undefined)
  },
})

test.use({ serviceWorkers: 'allow' })

test('opens without a network after one visit, every part of it', async ({ page, host }) => {
  await visit(page, host)
  await host.stop()
  await page.goto(`${host.address}#1/pickup/load_r=140k`)
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
  // Asked backwards, the worker is needed too.
  await page.goto(`${host.address}#1/pickup?want=peak:3_kHz&field=lead_length`)
  await expect(page.locator('.found')).toContainText(/value/i)
  // And the one file, to be saved.
  const waiting = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save page with my values' }).click()
  await waiting
})

test('a new version waits, and takes over without losing what was typed', async ({ page, host }) => {
  await visit(page, host)
  await page.goto(`${host.address}#1/pickup`)
  await input(page, 'load_r').fill('12 pigs')
  host.renew()
  await page.evaluate(async () => (await navigator.serviceWorker.ready).update())
  const take = page.getByRole('button', { name: 'Change to it' })
  await expect(take).toBeVisible()
  await expect(page.locator('html')).not.toHaveAttribute('data-renewed')
  await expect(input(page, 'load_r')).toHaveValue('12 pigs')
  await take.click()
  await expect(page.locator('html[data-renewed]')).toHaveCount(1)
  await expect(input(page, 'load_r')).toHaveValue('12 pigs')
  await expect(field(page, 'load_r').locator('[data-problem]')).toBeVisible()
  await expect(page.getByRole('button', { name: 'Change to it' })).toHaveCount(0)
  const kept = await page.evaluate(() => caches.keys())
  expect(kept).toHaveLength(1)
})

test('what installs it finds all that it asks for', async ({ page, host }) => {
  await visit(page, host)
  const session = await page.context().newCDPSession(page)
  const { errors, url } = await session.send('Page.getAppManifest')
  expect(errors).toEqual([])
  expect(url).toBe(`${host.address}manifest.webmanifest`)
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors')
  // The browser of the tests keeps nothing, and says so.
  expect(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito')).toEqual([])
})

async function visit(page: Page, { address }: Host) {
  await page.goto(address)
  await page.evaluate(() => navigator.serviceWorker.ready)
  await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true)
}
