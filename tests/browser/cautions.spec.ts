// What can hurt someone: a line each that unfolds, first where it is dangerous now.

import type { Page } from '@playwright/test'
import { expect, open, test } from './page'

const cautions = (page: Page) => page.locator('.answer [data-caution]')

/** Where the first caution is, and where the answer begins, from the top. */
async function places(page: Page): Promise<readonly [number, number]> {
  const top = async (selector: string) => (await page.locator(selector).first().boundingBox())?.y ?? NaN
  return [await top('.answer [data-caution]'), await top('.answer .lead')]
}

test('a caution is one line behind the answer, and unfolds', async ({ page }) => {
  await open(page, '#1/ground-loop')
  const [caution, answer] = await places(page)
  expect(caution).toBeGreaterThan(answer)
  const first = cautions(page).first()
  const more = 'It is what keeps metalwork'
  await expect(first.locator('summary')).toContainText('Never lift, cut or bypass a safety earth, whatever hums.')
  await expect(first.locator('summary')).not.toContainText(more)
  await expect(first).not.toHaveAttribute('open')
  await first.locator('summary').click()
  await expect(first).toHaveAttribute('open')
  await expect(first).toContainText(more)
})

test('what is dangerous now comes before the answer, unfolded', async ({ page }) => {
  await open(page, '#1/ground-loop/difference=3')
  const [caution, answer] = await places(page)
  expect(caution).toBeLessThan(answer)
  for (const caution of await cautions(page).all()) await expect(caution).toHaveAttribute('open')
})
