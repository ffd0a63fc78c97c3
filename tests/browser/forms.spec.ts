// The page starts in each form in which it may reach somebody.

import { readFileSync } from 'node:fs'
import type { Page } from '@playwright/test'
import { expect, open, test } from './page'
import { address, allForms, file } from './places'

for (const form of allForms) {
  test(form, async ({ page }) => {
    await open(page, '', form)
    await expectStarted(page)
  })
}

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
  await expect(place.locator('#start')).toBeHidden()
}
