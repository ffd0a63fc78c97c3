// Every calculator, beside its files and as one file without a network: typed
// into, read, seen, and opened again from its link.

import { change, descriptions } from './engine'
import { curves, expect, expectAnswer, input, open, test } from './page'
import { allForms } from './places'

for (const description of descriptions()) {
  for (const form of allForms) {
    test(`${description.title}, ${form}`, async ({ page, context }) => {
      const { field, text, before, after } = change(description)
      await open(page, '', form)
      await page.locator(`main a[data-calculator="${description.id}"]`).click()
      await expect(page.getByRole('heading', { level: 1 })).toHaveText(description.title)
      await expectAnswer(page, before)
      const drawn = await curves(page)
      expect(drawn.length > 0).toBe((before.report?.plots.length ?? 0) > 0)

      await input(page, field).fill(text)
      await expectAnswer(page, after)
      if (drawn.length > 0) await expect.poll(() => curves(page)).not.toEqual(drawn)

      await context.grantPermissions(['clipboard-read', 'clipboard-write'])
      await page.getByRole('button', { name: 'Copy link' }).click()
      await expect(page.getByText('Copied.')).toBeVisible()
      const link = await page.evaluate(() => navigator.clipboard.readText())
      const second = await context.newPage()
      await second.goto(link)
      await expect(input(second, field)).toHaveValue(text)
      await expectAnswer(second, after)
      await expect(async () => expect(await curves(second)).toEqual(await curves(page))).toPass()
    })
  }
}
