// All of it without a pointer.

import type { Locator, Page } from '@playwright/test'
import { answer } from './engine'
import { expect, expectAnswer, input, open, reading, slider, test } from './page'

test('from the search to the number under the curve', async ({ page }) => {
  await open(page)
  await tabTo(page, page.getByRole('searchbox'))
  await page.keyboard.type('pickup')
  await page.keyboard.press('Enter')
  await expect(page.getByRole('heading', { level: 1 })).toBeFocused()

  await tabTo(page, input(page, 'load_r'))
  await page.keyboard.type('140k')
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))

  await tabTo(page, slider(page, 'load_r'))
  await page.keyboard.press('ArrowRight')
  await expect(input(page, 'load_r')).not.toHaveValue('140k')
  const text = await input(page, 'load_r').inputValue()
  await expectAnswer(page, answer('pickup', { load_r: text }))

  const cursor = page.getByRole('slider', { name: /^Read/ })
  await tabTo(page, cursor)
  await expect(cursor).toHaveAttribute('aria-valuetext', 'nothing read yet')
  await page.keyboard.press('ArrowRight')
  await expect(cursor).toHaveAttribute('aria-valuetext', /Hz.*dB/)
  const first = await cursor.getAttribute('aria-valuetext')
  await page.keyboard.press('PageUp')
  await expect(cursor).not.toHaveAttribute('aria-valuetext', first ?? '')
  await expect(page.locator('.under-finger')).toContainText('dB')
  await page.keyboard.press('Escape')
  await expect(page.locator('.under-finger')).toHaveText('Touch the curve to read it.')
  await expect(cursor).toHaveAttribute('aria-valuetext', 'nothing read yet')

  await tabTo(page, page.getByRole('button', { name: 'Keep to compare' }))
  await page.keyboard.press('Enter')
  await expect(page.locator('[data-held]')).toHaveCount(1)
})

test('the skip link leads past the header', async ({ page }) => {
  await open(page, '#1/pickup')
  await page.keyboard.press('Tab')
  await expect(page.getByRole('link', { name: 'Skip to the answer' })).toBeInViewport()
  await page.keyboard.press('Enter')
  await expect(page.locator('main')).toBeFocused()
  await expect(page).toHaveURL(/#1\/pickup$/)
})

test('closing the question backwards leads back to where it was asked', async ({ page }) => {
  await open(page, '#1/pickup')
  const ask = page.getByRole('button', { name: 'Solve for … from Resonance', exact: true })
  await tabTo(page, ask)
  await page.keyboard.press('Enter')
  await tabTo(page, page.getByRole('button', { name: 'Close', exact: true }))
  await page.keyboard.press('Enter')
  await expect(page.locator('.backwards')).toHaveCount(0)
  await expect(ask).toBeFocused()
})

test('a question backwards that a link brought closes to its reading', async ({ page }) => {
  await open(page, '#1/pickup?want=peak:3_kHz&field=lead_length')
  await page.getByRole('button', { name: 'Close', exact: true }).click()
  await expect(page.getByRole('button', { name: 'Solve for … from Resonance', exact: true })).toBeFocused()
})

test('a question backwards closes to its reading where that has no number any more', async ({ page }) => {
  await open(page, '#1/pickup')
  await page.getByRole('button', { name: 'Solve for … from Resonance', exact: true }).click()
  // So low a load leaves no resonance to ask from.
  await input(page, 'load_r').fill('1k')
  await expectAnswer(page, answer('pickup', { load_r: '1k' }))
  await page.getByRole('button', { name: 'Close', exact: true }).click()
  await expect(page.locator('.answer [data-reading="peak"]')).toBeFocused()
})

test('a question backwards about nothing that is there closes to the heading', async ({ page }) => {
  await open(page, '#1/pickup?want=lost:3_kHz&field=lead_length')
  await page.getByRole('button', { name: 'Close', exact: true }).click()
  await expect(page.getByRole('heading', { level: 1 })).toBeFocused()
})

test('a value found backwards', async ({ page }) => {
  await open(page, '#1/pickup')
  await tabTo(page, page.getByRole('button', { name: 'Solve for … from Resonance', exact: true }))
  await page.keyboard.press('Enter')
  await expect(page.getByLabel('to be')).toBeFocused()
  await page.keyboard.type('3k')
  const use = page.locator('[data-found]').first().getByRole('button')
  await expect(use).toBeVisible()
  await tabTo(page, use)
  await page.keyboard.press('Enter')
  await expect(reading(page, 'peak')).toHaveText('3 kHz')
})

test('the changed answer is read out', async ({ page }) => {
  await open(page, '#1/pickup')
  const spoken = page.locator('p.unseen[role=status]')
  await expect(spoken).toHaveText('')
  await input(page, 'load_r').fill('140k')
  await expect(spoken).toContainText('Resonance: 2.95 kHz')
  await input(page, 'load_r').fill('12 pigs')
  await expect(spoken).toContainText('“pigs”')
})

/** Presses Tab until it is there, and sees at each stop where it is. */
async function tabTo(page: Page, goal: Locator) {
  for (let presses = 0; presses < 80; presses++) {
    await page.keyboard.press('Tab')
    const focused = page.locator(':focus')
    const outline = await focused.evaluate(element => {
      // A radio button is shown by its label.
      const shown = element.matches('[type=radio]') ? element.nextElementSibling : element
      return shown && getComputedStyle(shown).outlineStyle
    })
    expect(outline, await focused.evaluate(element => element.outerHTML)).not.toBe('none')
    if (await goal.evaluate(element => element === document.activeElement)) return
  }
  throw new Error('the keyboard does not reach it')
}
