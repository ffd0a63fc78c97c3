// Bad input gets a clear message at its cause, and nothing typed is lost.

import { expect, test } from '@playwright/test'
import { address } from './places'

const load = '[data-field="load_r"]'

test('nonsense is answered beside the field, and the last good answer stays', async ({ page }) => {
  await page.goto(`${address}#1/pickup`)
  const input = page.locator(`${load} input[type=text]`)
  const good = await page.locator('.answer [data-reading="peak"] bdi').textContent()
  await input.fill('12 pigs')
  await expect(page.locator(`${load} [data-problem]`)).toContainText('“pigs” is not a unit of this field')
  await expect(input).toHaveAttribute('aria-invalid', 'true')
  const described = (await input.getAttribute('aria-describedby')) ?? ''
  const message = await page.evaluate(
    ids =>
      ids
        .split(' ')
        .map(id => document.getElementById(id)?.textContent)
        .join(),
    described,
  )
  expect(message).toContain('pigs')
  await expect(page.locator('.answer')).toHaveAttribute('data-stale', 'true')
  await expect(page.locator('.answer [data-reading="peak"] bdi')).toHaveText(good ?? '')

  await page.reload()
  await expect(input).toHaveValue('12 pigs')
  await expect(page.locator(`${load} [data-problem]`)).toBeVisible()
  await input.fill('140k')
  await expect(page.locator('.answer [data-reading="peak"] bdi')).toHaveText('2.948 kHz')
})

test('what was typed fast survives a reload at once', async ({ page }) => {
  await page.goto(`${address}#1/pickup`)
  const input = page.locator(`${load} input[type=text]`)
  await input.fill('')
  await input.pressSequentially('123 pigs')
  await page.reload()
  await expect(input).toHaveValue('123 pigs')
})

test('what can be read in two ways is asked about', async ({ page }) => {
  await page.goto(`${address}#1/source-load`)
  const input = page.locator(`${load} input[type=text]`)
  await input.fill('1,500')
  await page.locator(`${load} [data-problem]`).getByRole('button', { name: '1500', exact: true }).click()
  await expect(input).toHaveValue('1500')
  await expect(page.locator('.answer')).toHaveAttribute('data-stale', 'false')
})

for (const [what, hash, message, raw] of [
  ['of another version', '#9/pickup/load_r=1M', 'does not read', '9/pickup/load_r=1M'],
  ['to no calculator', '#1/teleport/load_r=1M', 'teleport', 'load_r = 1M'],
  ['to no field', '#1/pickup/warp=9&load_r=10k', 'warp', 'warp = 9'],
] as const) {
  test(`a link ${what}`, async ({ page }) => {
    await page.goto(address + hash)
    await expect(page.locator('.notice')).toContainText(message)
    await expect(page.locator('.notice pre')).toContainText(raw)
    await page.locator('header a').first().click()
    await expect(page.getByRole('link', { name: 'Levels' })).toBeVisible()
  })
}

test('a link with broken signs keeps its text in the field, with a message', async ({ page }) => {
  await page.goto(`${address}#1/pickup/load_r=%E0%A4%A`)
  await expect(page.locator(`${load} input[type=text]`)).toHaveValue('%E0%A4%A')
  await expect(page.locator(`${load} [data-problem]`)).toBeVisible()
})

test('a slider writes into its field, by keys too', async ({ page }) => {
  await page.goto(`${address}#1/pickup`)
  const input = page.locator('[data-field="lead_length"] input[type=text]')
  const slider = page.locator('[data-field="lead_length"] input[type=range]')
  await slider.focus()
  await page.keyboard.press('ArrowRight')
  await expect(input).not.toHaveValue('5 m')
  await expect(page).toHaveURL(/lead_length=/)
})
