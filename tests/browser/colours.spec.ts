// Colours of the reader's own, as for those who see them better: nothing is told
// by a colour of ours alone.

import type { Locator } from '@playwright/test'
import { expect, field, open, setting, test } from './page'

test.use({ contextOptions: { forcedColors: 'active' } })

test('what is chosen differs from what is not', async ({ page }) => {
  await open(page, '#1/pickup')
  const marks = field(page, 'load_r').locator('.marks button')
  await marks.first().click()
  await expect(marks.first()).toHaveAttribute('aria-pressed', 'true')
  expect(await look(marks.first())).not.toEqual(await look(marks.nth(1)))
  await setting(page, 'dark')
  const themes = page.getByRole('group', { name: 'Theme' }).locator('input + span')
  expect(await look(themes.nth(2))).not.toEqual(await look(themes.nth(1)))
})

test('curves are told apart by their strokes', async ({ page }) => {
  await open(page, '#1/pickup/load_r=1M/load_r=10k/load_r=140k')
  const curves = page.locator('figure.plot path.curve:not([data-reference=true])')
  await expect(curves).toHaveCount(3)
  const strokes = await curves.evaluateAll(paths => paths.map(path => getComputedStyle(path).strokeDasharray))
  expect(new Set(strokes).size).toBe(3)
  const [ink] = await curves.evaluateAll(paths => paths.map(path => getComputedStyle(path).stroke))
  await expect(page.locator('body')).toHaveCSS('color', ink ?? '')
})

test('what has the focus shows it', async ({ page }) => {
  await open(page, '#1/pickup')
  for (let step = 0; step < 12; step++) {
    await page.keyboard.press('Tab')
    const focused = page.locator(':focus')
    const [style, width] = await focused.evaluate(element => {
      const { outlineStyle, outlineWidth } = getComputedStyle(element)
      return [outlineStyle, parseFloat(outlineWidth)]
    })
    expect([style !== 'none', Number(width) > 0], await focused.evaluate(element => element.outerHTML)).toEqual([
      true,
      true,
    ])
  }
})

function look(locator: Locator) {
  return locator.evaluate(element => {
    const { backgroundColor, color, outlineStyle, borderColor } = getComputedStyle(element)
    return { backgroundColor, color, outlineStyle, borderColor }
  })
}

test('forced colours draw a help button as small as other colours do', async ({ page }) => {
  await page.emulateMedia({ forcedColors: 'active' })
  await open(page, '#1/pickup')
  const [outer, circle] = await page
    .locator('.question .help')
    .first()
    .evaluate(button => {
      const { inlineSize, borderTopWidth } = getComputedStyle(button, '::before')
      return [getComputedStyle(button).borderTopWidth, borderTopWidth === '0px' ? NaN : parseFloat(inlineSize)]
    })
  expect(outer).toBe('0px')
  expect(circle).toBeLessThan(28)
})
