// From opening the page to an answer: what was pinned or used last is on top.

import { answer } from './engine'
import { expect, expectAnswer, input, open, test } from './page'

test.use({ viewport: { width: 360, height: 740 }, hasTouch: true })

test('the last ones come back with the values that they were left with', async ({ page }) => {
  await open(page, '#1/pickup')
  await input(page, 'load_r').fill('140k')
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
  await open(page, '#1/levels')
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Levels')
  await open(page)
  const atHand = page.locator('.at-hand a')
  await expect(atHand).toHaveText(['Levels', 'Pickup, lead and load'])
  await expect(atHand.first()).toBeInViewport()
  await atHand.last().tap()
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
})

test('no more than four, the newest first', async ({ page }) => {
  for (const id of ['pickup', 'levels', 'pad', 'phantom', 'transformer', 'levels']) {
    await open(page, `#1/${id}`)
    await expect(page.locator(`[data-calculator="${id}"]`)).toBeVisible()
  }
  await open(page)
  await expect(page.locator('.at-hand a')).toHaveText(['Levels', 'Transformer', 'Phantom supply', 'Pads'])
})

test('what is pinned stays on top, and is let go again', async ({ page }) => {
  await open(page, '#1/pad')
  const pin = page.locator('.pin')
  await expect(pin).toHaveAttribute('aria-pressed', 'false')
  await pin.focus()
  await page.keyboard.press('Enter')
  await expect(pin).toHaveAttribute('aria-pressed', 'true')
  await open(page, '#1/levels')
  await expect(page.locator('[data-calculator="levels"]')).toBeVisible()
  await open(page)
  await expect(page.locator('.at-hand a')).toHaveText([/^Pads.*pinned$/, 'Levels'])
  await page.locator('.at-hand a').first().tap()
  await expect(pin).toHaveAttribute('aria-pressed', 'true')
  await pin.tap()
  await open(page)
  await expect(page.locator('.at-hand')).not.toContainText('pinned')
})

test('two taps and the value', async ({ page }) => {
  await open(page)
  await page.locator('.calculators a').filter({ hasText: 'Lead and line length' }).tap()
  await input(page, 'coil_l').tap()
  await page.keyboard.type('4')
  await expectAnswer(page, answer('lead-length', { coil_l: '4' }))
})
