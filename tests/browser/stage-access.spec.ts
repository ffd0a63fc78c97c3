// For everyone: no fault that axe finds on any view of the stage, on a phone and at a
// desk, in every theme; and letters four times as large leave one way to scroll.

import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import { expect, layOut, setting, test } from './page'
import { inventedShow, openShow } from './stage-open'

const SIZES = { phone: { width: 360, height: 740 }, desk: { width: 1440, height: 900 } }
const THEMES = ['light', 'dark', 'stage'] as const

for (const [size, viewport] of Object.entries(SIZES)) {
  for (const theme of THEMES) {
    test(`every view on a ${size}, ${theme}`, async ({ page }) => {
      await page.setViewportSize(viewport)
      await openShow(page, inventedShow())
      if (theme !== 'light') await setting(page, theme)
      for (const [name, visit] of VIEWS) {
        await visit(page)
        await layOut(page)
        // Of all that axe knows, the contrast alone depends on the colours.
        const axe = new AxeBuilder({ page })
        if (theme === 'light') axe.options({ rules: { 'target-size': { enabled: true } } })
        else axe.withRules('color-contrast')
        const { violations } = await axe.analyze()
        expect(
          violations.map(({ id, nodes }) => [id, nodes.map(({ html, failureSummary }) => [html, failureSummary])]),
          name,
        ).toEqual([])
      }
    })
  }
}

type Visit = (page: Page) => Promise<void>

/** Every view in turn, each reached from the one before. */
const VIEWS: readonly (readonly [name: string, visit: Visit])[] = [
  ['input list', page => expect(page.locator('.list-count')).toContainText('need attention')],
  ['open row', openRow],
  ['show', page => page.getByRole('button', { name: 'Show', exact: true }).click()],
  ['gear', page => goTo(page, 'gear', '.gear-list')],
  ['gear that is open', page => page.locator('.gear-list summary').first().click()],
  ['power and links', page => goTo(page, 'power', '.power-list')],
  ['packing list', page => goTo(page, 'packing', '.packed')],
  ['ground map', page => goTo(page, 'map', '.map-frame')],
  ['an input of the ground map', page => page.locator('.map-inputs button').first().click()],
  ['ground map as a list', page => page.getByRole('radio', { name: 'List', exact: true }).check()],
]

async function openRow(page: Page): Promise<void> {
  await page.locator('[data-line=ch-10]').locator('button, [data-column=verdict]').first().click()
  await expect(page.locator('.row-panel .cures .chip').first()).toBeVisible()
}

async function goTo(page: Page, view: string, until: string): Promise<void> {
  await page.locator(`nav.views a[href$="#1/stage/${view}"]`).click()
  await expect(page.locator(until).first()).toBeVisible()
}
