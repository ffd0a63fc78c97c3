// Every preset of every calculator gives what the native engine answers to it.

import { answer, descriptions } from './engine'
import { expect, expectAnswer, open, test } from './page'

for (const { id, title, presets } of descriptions()) {
  test(title, async ({ page }) => {
    await open(page, `#1/${id}`)
    for (const preset of presets) {
      await page.locator(`[data-preset="${preset.id}"]`).click()
      await expectAnswer(page, answer(id, Object.fromEntries(preset.values)))
      if (preset.held.length > 0) await expect(page.locator('.compare [data-held]')).toHaveCount(preset.held.length)
    }
    if (presets.length === 0) return
    await page.getByRole('button', { name: 'Reset', exact: true }).click()
    await expectAnswer(page, answer(id))
  })
}
