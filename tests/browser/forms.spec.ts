// The page starts in each form in which it may reach somebody.

import { expect, test, type Page } from '@playwright/test'
import { readFileSync } from 'node:fs'
import { pathToFileURL } from 'node:url'
import { address, file } from './places'

// Chromium tells of everything that a policy or a missing file keeps it from.
let troubles: string[]

test.beforeEach(({ page }) => {
  troubles = []
  page.on('pageerror', error => troubles.push(error.message))
  page.on('console', message => {
    if (message.type() === 'error') troubles.push(message.text())
  })
})

test.afterEach(() => expect(troubles).toEqual([]))

test('beside its files, under a path', async ({ page }) => {
  await page.goto(address)
  await expectStarted(page)
})

test('as one file from the disk, without a network', async ({ page, context }) => {
  await context.setOffline(true)
  const asked: string[] = []
  page.on('request', request => asked.push(request.url()))
  await page.goto(pathToFileURL(file).href)
  await expectStarted(page)
  expect(asked.filter(url => !/^(file|data|blob):/.test(url))).toEqual([])
})

test('in a frame that has an origin of its own', async ({ page }) => {
  // From the same host, since the browser keeps other pages from this machine.
  const outer = new URL('/', address).href
  await page.route(outer, route => route.fulfill({ contentType: 'text/html', body: '' }))
  await page.goto(outer)
  await addFrame(page, { src: address })
  await expectStarted(page.frameLocator('iframe'))
})

test('as one file that is text inside another page', async ({ page }) => {
  await addFrame(page, { srcdoc: readFileSync(file, 'utf8') })
  await expectStarted(page.frameLocator('iframe'))
})

async function addFrame(page: Page, content: { src: string } | { srcdoc: string }) {
  await page.evaluate(content => {
    const frame = document.createElement('iframe')
    frame.sandbox.add('allow-scripts')
    document.body.append(Object.assign(frame, content))
  }, content)
}

/** The list of calculators is made of the engine's own words. */
async function expectStarted(place: Pick<Page, 'locator'>) {
  await expect(place.locator('main a').first()).toBeVisible()
  await expect(place.locator('#failed')).toHaveCount(0)
}
