// What a screen shows besides the answer: held curves, backwards, working,
// settings, and the readout under finger and keys.

import { expect, test, type Page } from '@playwright/test'
import { pathToFileURL } from 'node:url'
import { address, file } from './places'

test('held curves stand beside the present one, and the link brings them back', async ({ page }) => {
  await page.goto(`${address}#1/pickup`)
  await page.getByRole('button', { name: 'Hold this curve' }).click()
  await page.locator('[data-field="load_r"] input[type=text]').fill('10k')
  await expect(page.locator('path.curve[data-reference=false]')).toHaveCount(2)
  const row = page.getByRole('row', { name: /^Resonance \d|^Resonance none/ })
  await expect(row).toContainText('none: damped away')
  await expect(row).toContainText('3.706 kHz')

  await expect(page).toHaveURL(/load_r=10k\/$/)
  const second = await page.context().newPage()
  await second.goto(page.url())
  await expect(second.locator('path.curve[data-reference=false]')).toHaveCount(2)
  await second
    .locator('[data-held="1"]')
    .getByRole('button', { name: /^Remove/ })
    .click()
  await expect(second.locator('path.curve[data-reference=false]')).toHaveCount(1)
})

for (const [form, start] of Object.entries({ served: address, 'one file': pathToFileURL(file).href })) {
  test(`asked backwards, ${form}`, async ({ page }) => {
    let workers = 0
    page.on('worker', () => workers++)
    await page.goto(`${start}#1/pickup`)
    await page.getByRole('button', { name: 'Ask backwards from Resonance', exact: true }).click()
    await page.getByLabel('to be').fill('3 kHz')
    await page.getByLabel('by changing').selectOption('lead_length')
    // Two lengths do; the longer one is that of a lead.
    await page.locator('[data-found]').last().getByRole('button').click()
    await expect(page.locator('.answer [data-reading="peak"] bdi')).toHaveText('3 kHz')
    await page.getByLabel('to be').fill('30 kHz')
    await expect(page.locator('.found')).toContainText('No value')
    await page.getByLabel('to be').fill('high')
    await expect(page.locator('#wanted-problem')).toContainText('kHz')
    expect(workers).toBe(1)
  })
}

test('the working is shown in formulas', async ({ page }) => {
  await page.goto(`${address}#1/source-load`)
  await page.getByText('Show the working').click()
  await expect(page.locator('math').first()).toBeVisible()
  expect(await page.locator('math').count()).toBeGreaterThan(10)
})

test('settings are kept, and are in the link', async ({ page }) => {
  await page.goto(`${address}#1/pickup`)
  await choose(page, '1,5 comma')
  await choose(page, 'feet')
  await expect(page.locator('.answer [data-reading="peak"] bdi')).toHaveText('3,706 kHz')
  await page.reload()
  await expect(page.locator('.answer [data-reading="peak"] bdi')).toHaveText('3,706 kHz')
  await expect(page.locator('[data-field="lead_length"] input[type=text]')).toHaveValue(/ft/)
})

test('everything works where storage is refused', async ({ page }) => {
  await page.addInitScript(() => {
    const refuse = {
      get: () => {
        throw new DOMException('refused', 'SecurityError')
      },
    }
    Object.defineProperty(window, 'localStorage', refuse)
    Object.defineProperty(window, 'sessionStorage', refuse)
  })
  const troubles: string[] = []
  page.on('pageerror', error => troubles.push(error.message))
  await page.goto(`${address}#1/pickup`)
  await choose(page, '1,5 comma')
  await expect(page.locator('.answer [data-reading="peak"] bdi')).toHaveText('3,706 kHz')
  expect(troubles).toEqual([])
})

test('back and forward move between screens', async ({ page }) => {
  await page.goto(address)
  await page.getByRole('link', { name: 'Levels' }).click()
  await page.locator('[data-field="level"] input[type=text]').fill('-10 dBV')
  await expect(page).toHaveURL(/level=/)
  await page.goBack()
  await expect(page.getByRole('link', { name: 'Transformer' })).toBeVisible()
  await page.goForward()
  await expect(page.locator('[data-field="level"] input[type=text]')).toHaveValue('-10 dBV')
})

test.describe('on a phone', () => {
  test.use({ viewport: { width: 360, height: 740 }, hasTouch: true })

  test('a finger and the keys read the curve', async ({ page }) => {
    await page.goto(`${address}#1/pickup`)
    const cursor = page.getByRole('slider', { name: /^Read/ })
    await cursor.tap()
    const first = await page.locator('.under-finger').textContent()
    expect(first).toContain('dB')
    await cursor.focus()
    await page.keyboard.press('PageUp')
    await expect(page.locator('.under-finger')).not.toHaveText(first ?? '')
  })
})

async function choose(page: Page, name: string) {
  const settings = page.getByRole('button', { name: 'Settings' })
  if ((await settings.getAttribute('aria-expanded')) !== 'true') await settings.click()
  await page.getByRole('radio', { name }).check({ force: true })
}
