// A reader who comes back: what is kept in the browser, and how it changes.

import { expect, type Page } from '@playwright/test'
import type { Host } from './host'

export async function expectStarted(page: Page): Promise<void> {
  await expect(page.locator('html[data-started]')).toHaveCount(1)
  await expect(page.locator('#start')).toBeHidden()
  await expect(page.locator('main a').first()).toBeVisible()
}

/** The first visit, until the page is kept and known to start. */
export async function visit(page: Page, host: Host): Promise<void> {
  await page.goto(host.address)
  await expectStarted(page)
  await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true)
  await expect.poll(() => note(page, 'proven')).toMatch(/[0-9a-f]{16}$/)
}

/** Looks for a new version: whether one waits then. */
export async function update(page: Page): Promise<boolean> {
  return page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready
    // A script that is missing or cut short is refused as such.
    await registration.update().catch(() => undefined)
    const { installing } = registration
    if (installing !== null) {
      await new Promise<void>(done => {
        const look = () => installing.state !== 'installing' && done()
        installing.addEventListener('statechange', look)
        look()
      })
    }
    return registration.waiting !== null
  })
}

/** Takes the new version that waits. */
export async function change(page: Page): Promise<void> {
  expect(await update(page)).toBe(true)
  await page.getByRole('button', { name: 'Switch to it' }).click()
}

/** How many versions are kept. */
export async function versions(page: Page): Promise<number> {
  return page.evaluate(async () => (await caches.keys()).filter(name => /[0-9a-f]{16}$/.test(name)).length)
}

/** What the service worker noted. */
async function note(page: Page, name: string): Promise<string> {
  return page.evaluate(async name => {
    const found = (await caches.keys()).find(cache => cache.endsWith(' notes'))
    const kept = found === undefined ? undefined : await (await caches.open(found)).match(name)
    return kept?.text() ?? ''
  }, name)
}
