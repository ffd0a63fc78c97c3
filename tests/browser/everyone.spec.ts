// For everyone: no fault that axe finds, in light and dark, and no sideways
// scroll on a narrow screen or in large text.

import AxeBuilder from '@axe-core/playwright'
import { expect, test, type Page } from '@playwright/test'
import { descriptions } from './engine'
import { address } from './places'

const screens: [string, string][] = [
  ['list', ''],
  ...descriptions().map(({ id }): [string, string] => [id, `#1/${id}`]),
  ['bad input', '#1/pickup/load_r=12 pigs'],
  ['held curves', '#1/pickup/load_r=1M/load_r=10k/load_r=140k'],
  ['backwards', '#1/pickup?want=peak:3 kHz&field=lead_length'],
  ['lost link', '#9/pickup'],
]

for (const scheme of ['light', 'dark'] as const) {
  test.describe(scheme, () => {
    test.use({ colorScheme: scheme })
    for (const [name, hash] of screens) {
      test(`axe: ${name}`, async ({ page }) => {
        await open(page, hash)
        const { violations } = await new AxeBuilder({ page })
          .withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'])
          .analyze()
        expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([])
      })
    }
  })
}

test.describe('narrow', () => {
  test.use({ viewport: { width: 360, height: 740 } })
  for (const [name, hash] of screens) {
    test(`no sideways scroll: ${name}`, async ({ page }) => {
      await open(page, hash)
      expect(await sideways(page)).toBe(0)
      await page.evaluate(() => (document.documentElement.style.fontSize = '200%'))
      expect(await sideways(page)).toBe(0)
    })
  }
})

/** Opens a screen with everything unfolded. */
async function open(page: Page, hash: string) {
  await page.goto(address + hash)
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
  // Twice, since what unfolds may hold more to unfold.
  for (let round = 0; round < 2; round++) {
    await page.locator('main details').evaluateAll(all => all.forEach(one => one.setAttribute('open', '')))
    await page.waitForTimeout(100)
  }
}

function sideways(page: Page): Promise<number> {
  return page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
}
