// The start page stands in the page itself: it is read, followed and typed into before
// any script has come.

import type { Page } from '@playwright/test'
import { answer, descriptions } from './engine'
import { expect, expectAnswer, test } from './page'
import { address } from './places'

const MAIN = '**/main-*.js'

/** Holds the page's script back until it is given. */
async function open(page: Page, hash = ''): Promise<() => void> {
  let give = () => {}
  const given = new Promise<void>(done => (give = done))
  await page.route(MAIN, async route => {
    await given
    await route.continue()
  })
  await page.goto(address + hash, { waitUntil: 'commit' })
  return give
}

test('every calculator can be read before the page has started, and stays where it is', async ({ page }) => {
  const give = await open(page)
  const links = page.locator('.calculators a')
  // And the ways to the finder of faults and to the whole stage.
  await expect(links).toHaveCount(descriptions().length + 3)
  const texts = async () => (await links.allInnerTexts()).map(text => text.replace(/\s+/g, ' '))
  const before = await texts()
  for (const { title, purpose } of descriptions()) expect(before).toContain(`${title} ${purpose}`)
  const tops = () =>
    page.locator('h1, #find, .calculators a').evaluateAll(all => all.map(one => one.getBoundingClientRect().top))
  const where = await tops()
  give()
  await expect(page.locator('html[data-started]')).toBeAttached()
  await expect(page.locator('#start')).toBeHidden()
  expect(await texts()).toEqual(before)
  expect(await tops()).toEqual(where)
})

test('what is typed before the page has started is searched once it has', async ({ page }) => {
  const give = await open(page)
  await page.locator('#find').pressSequentially('pick')
  give()
  await expect(page.locator('#start')).toBeHidden()
  await page.keyboard.type('up')
  await expect(page.locator('#find')).toHaveValue('pickup')
  await expect(page.locator('.hits a').first()).toHaveAttribute('href', /pickup/)
})

test('a link that is followed before the page has started opens', async ({ page }) => {
  const give = await open(page)
  await page.locator('.calculators a[data-calculator=levels]').click()
  await expect(page.locator('.calculators')).toBeHidden()
  give()
  await expectAnswer(page, answer('levels'))
})

test('another screen does not begin with the start page', async ({ page }) => {
  const give = await open(page, '#1/pickup')
  await expect(page.locator('#start')).toBeAttached()
  await expect(page.locator('#page')).toBeAttached()
  await expect(page.locator('#page main')).toBeHidden()
  give()
  await expectAnswer(page, answer('pickup'))
})
