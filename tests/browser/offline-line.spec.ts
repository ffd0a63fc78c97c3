// The start page says whether this copy opens without a network, and is right.

import { test as plain } from '@playwright/test'
import { builtFiles } from '../offline/versions.mjs'
import { startHost, type Host } from './host'
import { expect } from './page'
import { forms } from './places'
import { expectStarted, visit } from './visit'

const test = plain.extend<{ host: Host }>({
  host: async ({}, use) => {
    const host = await startHost(builtFiles())
    await use(host)
    await host.stop().catch(() => undefined)
  },
})

const STORED = 'Works offline: everything is stored on this device.'

test.describe('where the browser may store it', () => {
  test.use({ serviceWorkers: 'allow' })

  test('it says so once all is stored, and then it does open, and searches, without a network', async ({
    page,
    host,
  }) => {
    await visit(page, host)
    const line = page.locator('.offline')
    await expect(line).toContainText(STORED)
    await host.stop()
    await page.context().setOffline(true)
    await page.reload()
    await expectStarted(page)
    await expect(line).toContainText(STORED)
    await page.getByLabel('What do you want to know?').fill('does an active DI run on P24 over 80 m')
    await expect(page.locator('.hits .title').first()).toHaveText('Phantom supply')
  })

  test('it does not say so while a file is missing, nor once what was stored is cleared', async ({ page, host }) => {
    const files = host.files
    host.files = new Map([...files].filter(([name]) => !name.startsWith('worker-')))
    await page.goto(host.address)
    await expectStarted(page)
    const line = page.locator('.offline')
    await expect(line).toContainText('Not yet stored')
    host.files = files
    await visit(page, host)
    await expect(line).toContainText(STORED)
    await page.evaluate(async () => {
      for (const name of await caches.keys()) await caches.delete(name)
      document.dispatchEvent(new Event('visibilitychange'))
    })
    await expect(line).toContainText('Not yet stored')
  })
})

test('where it may not, it says how to get a copy that opens', async ({ page, host }) => {
  await page.goto(host.address)
  await expectStarted(page)
  await expect(page.locator('.offline')).toContainText('this copy needs a network to open')
  await expect(page.locator('.offline')).toContainText('save this page as one file')
})

test('a saved file needs none', async ({ page }) => {
  await page.context().setOffline(true)
  await page.goto(forms['one file'])
  await expectStarted(page)
  await expect(page.locator('.offline')).toHaveText('This is a saved file: it needs no network.')
})

test('the one file on a host does', async ({ page, host }) => {
  await page.goto(`${host.address}stageohm.html`)
  await expectStarted(page)
  await expect(page.locator('.offline')).toContainText('this copy needs a network to open')
})
