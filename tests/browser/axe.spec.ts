// For everyone: no fault that axe finds, in light and in dark.

import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { expect, test } from './page'
import { openWhole, screens } from './screens'

for (const [name, hash] of screens) {
  test(name, async ({ page }) => {
    await openWhole(page, hash)
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme })
      await expect(page.locator('html')).toHaveCSS('color-scheme', colorScheme)
      expect(await faults(page), colorScheme).toEqual([])
    }
  })
}

async function faults(page: Page) {
  const { violations } = await new AxeBuilder({ page }).options({ resultTypes: ['violations'] }).analyze()
  return violations.map(({ id, nodes }) => [id, nodes.map(({ html, failureSummary }) => [html, failureSummary])])
}
