// What comes after the first answer: the page answers without it, says where it is
// missing, and asks for it again.

import { test as plain, type Page } from '@playwright/test'
import { answer } from './engine'
import { expect, expectAnswer, input, open, test } from './page'
import { address, allForms } from './places'

const MORE = '**/more-*.js'
const rest = (page: Page) => page.getByRole('heading', { name: 'Share' })
const missing = (page: Page) => page.locator('main .missing .notice')

for (const form of allForms) {
  test(`it comes by itself, ${form}`, async ({ page }) => {
    await open(page, '#1/pickup', form)
    await expect(rest(page)).toBeVisible()
    await expect(page.locator('figure.plot svg').first()).toBeVisible()
    await open(page, '', form)
    await expect(rest(page)).toBeVisible()
  })
}

/** Holds it back until it is given. */
async function held(page: Page): Promise<() => void> {
  let give = () => {}
  const given = new Promise<void>(done => (give = done))
  await page.route(MORE, async route => {
    await given
    await route.continue()
  })
  return give
}

test('the page answers before it has come, and keeps its place when it does', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 740 })
  const give = await held(page)
  await open(page, '#1/pickup')
  await expectAnswer(page, answer('pickup'))
  await input(page, 'load_r').fill('140k')
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
  await page.keyboard.press('Control+z')
  await expectAnswer(page, answer('pickup'))
  const top = () => page.evaluate(() => document.querySelector('#headline')?.getBoundingClientRect().top)
  const before = await top()
  expect(before).toBeGreaterThan(0)
  give()
  await expect(rest(page)).toBeAttached()
  expect(await top()).toBe(before)
})

test('what is asked backwards before it has come is asked when it does', async ({ page }) => {
  const give = await held(page)
  await open(page, '#1/pickup')
  await page.locator('.answer .ask').first().click()
  await expect(page.locator('#wanted')).toHaveCount(0)
  give()
  await expect(page.locator('#wanted')).toBeFocused()
})

// The browser tells of a file that is missing, which is what these are about.
for (const [how, status, body] of [
  ['missing', 404, 'There is no such file here.'],
  ['cut short', 200, '(() => { const half ='],
  ['a log-in page', 200, 'void "Log in to go on"'],
] as const) {
  plain(`where it is ${how} the page says so, and asks again`, async ({ page }) => {
    await page.route(MORE, route => route.fulfill({ status, body, contentType: 'text/javascript' }))
    await page.goto(`${address}#1/pickup`)
    await expectAnswer(page, answer('pickup'))
    await expect(missing(page)).toContainText('did not load')
    await expect(rest(page)).toHaveCount(0)
    await page.unroute(MORE)
    await missing(page).getByRole('button', { name: 'Try again' }).click()
    await expect(rest(page)).toBeVisible()
    await expect(missing(page)).toHaveCount(0)
  })
}

plain('what is looked up says so in its place too', async ({ page }) => {
  await page.route(MORE, route => route.abort())
  await page.goto(`${address}#1/look-up/adaptor-two-outputs`)
  await expect(missing(page)).toBeVisible()
  await expect(page.getByRole('heading', { level: 1 })).not.toBeEmpty()
  await page.unroute(MORE)
  await missing(page).getByRole('button', { name: 'Try again' }).click()
  await expect(page.locator('.wiring svg')).toBeVisible()
})
