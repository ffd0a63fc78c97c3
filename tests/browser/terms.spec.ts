// Terms in the names of readings and fields open what they mean, there and then.

import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { expect, field, open, test } from './page'

const RATIO = 'Common-mode rejection'

test.use({ viewport: { width: 360, height: 740 } })

test('in the name of a reading, by finger', async ({ page }) => {
  await open(page, '#1/balance')
  const address = page.url()
  const term = termIn(page)
  const { width, height } = (await term.boundingBox()) ?? { width: 0, height: 0 }
  expect(Math.min(width, height)).toBeGreaterThanOrEqual(44)
  await term.click()
  const said = page.getByRole('dialog', { name: RATIO })
  await expect(said).toContainText('unequal source legs spoil the best input')
  expect(page.url()).toBe(address)
  const box = (await said.boundingBox()) ?? { x: NaN, y: NaN, width: NaN, height: NaN }
  const at = (await term.boundingBox()) ?? { y: NaN, height: NaN }
  expect(box.x).toBeGreaterThanOrEqual(0)
  expect(box.x + box.width).toBeLessThanOrEqual(360)
  // Beside the term, and not over it.
  expect(box.y >= at.y + at.height || box.y + box.height <= at.y).toBe(true)
  await said.getByRole('button', { name: 'Close' }).click()
  await expect(said).toBeHidden()
  await term.click()
  await page.mouse.click(180, 2)
  await expect(said).toBeHidden()
})

test('by keys, and back to where it was asked', async ({ page }) => {
  await open(page, '#1/balance')
  const term = termIn(page)
  await term.focus()
  await page.keyboard.press('Enter')
  const said = page.getByRole('dialog', { name: RATIO })
  await expect(said).toBeFocused()
  expect((await new AxeBuilder({ page }).include('.term-text:popover-open').analyze()).violations).toEqual([])
  await page.keyboard.press('Tab')
  await expect(said.getByRole('link', { name: 'More in the reference' })).toBeFocused()
  await page.keyboard.press('Escape')
  await expect(said).toBeHidden()
  await expect(term).toBeFocused()
  await page.keyboard.press('Enter')
  await page.keyboard.press('Tab')
  await page.keyboard.press('Enter')
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(RATIO)
})

test('a key that is quick goes to what was opened', async ({ page }) => {
  await open(page, '#1/balance')
  await termIn(page).focus()
  const focused = await termIn(page).evaluate(async (term: HTMLElement) => {
    term.click()
    await Promise.resolve()
    return document.activeElement?.className
  })
  expect(focused).toBe('term-text')
})

test('in the help of a field', async ({ page }) => {
  await open(page, '#1/balance')
  const asked = field(page, 'input_r')
  await asked.locator('.help').click()
  await expect(asked.locator('.says')).toContainText('What both legs of a line have in common')
})

test('in a help that was opened before the reference had come', async ({ page }) => {
  let arrive = () => {}
  const whole = new Promise<void>(done => (arrive = done))
  await page.route(/_bg\.wasm$/, async route => {
    await whole
    await route.continue()
  })
  await open(page, '#1/balance')
  const asked = field(page, 'input_r')
  await asked.locator('.help').click()
  await expect(asked.locator('.says')).toContainText('5 to 20 kΩ')
  arrive()
  await expect(asked.locator('.says')).toContainText('What both legs of a line have in common')
})

test('in a lesson too, which is not left for it', async ({ page }) => {
  await open(page, '#1/balance?lesson')
  await termIn(page).click()
  const said = page.getByRole('dialog', { name: RATIO })
  await expect(said).toContainText('unequal source legs')
  await expect(said.getByRole('link')).toHaveCount(0)
})

/** The term in the first reading. */
function termIn(page: Page) {
  return page.locator('.answer .term').filter({ hasText: RATIO }).first()
}
