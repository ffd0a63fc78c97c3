// For everyone: no fault that axe finds, in light and in dark.

import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { expect, setting, test } from './page'
import { openWhole, screens } from './screens'

/** A phone, and the desk on which the page stands in two columns. */
const SIZES = { phone: { width: 360, height: 740 }, desk: { width: 1440, height: 900 } }

// WCAG 2.2, 2.5.8 (AA), which axe leaves out unless it is asked.
for (const [size, viewport] of Object.entries(SIZES)) {
  for (const [name, hash] of screens) {
    test(`${name}, targets on a ${size}`, async ({ page }) => {
      await page.setViewportSize(viewport)
      await openWhole(page, hash)
      expect(await faults(new AxeBuilder({ page }).withRules('target-size'))).toEqual([])
    })
  }
}

for (const [name, hash] of screens) {
  test(name, async ({ page }) => {
    await openWhole(page, hash)
    expect(await faults(axe(page))).toEqual([])
    // Of all that axe knows, the contrast alone depends on the colours.
    await page.emulateMedia({ colorScheme: 'dark' })
    await expect(page.locator('html')).toHaveCSS('color-scheme', 'dark')
    expect(await faults(axe(page).withRules('color-contrast'))).toEqual([])
  })
}

for (const [name, hash] of screens.filter(([name]) =>
  ['List', 'held curves', 'bad input', 'wiring', 'finder', 'finder, on its way', 'lesson editor'].includes(name),
)) {
  test(`${name}, on a dark stage`, async ({ page }) => {
    await openWhole(page, hash)
    await setting(page, 'stage')
    expect(await faults(axe(page).withRules('color-contrast'))).toEqual([])
  })
}

/** Formulas have thousands of signs, all set by the same styles: those of three steps stand for all. */
function axe(page: Page) {
  return new AxeBuilder({ page }).exclude('[data-step]:nth-child(n + 4) math')
}

async function faults(axe: AxeBuilder) {
  const { violations } = await axe.analyze()
  return violations.map(({ id, nodes }) => [id, nodes.map(({ html, failureSummary }) => [html, failureSummary])])
}
