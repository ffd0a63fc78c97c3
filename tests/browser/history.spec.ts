// Back and forward move between screens, each as it was left.

import { answer, descriptions } from './engine'
import { expect, expectAnswer, input, layOut, open, setting, test } from './page'

test('back and forward', async ({ page }) => {
  await open(page)
  await page.locator('.calculators').getByRole('link', { name: 'Levels' }).click()
  await input(page, 'level').fill('-10 dBV')
  await page.goBack()
  await expect(page.getByRole('link', { name: 'Transformer' })).toBeVisible()
  await page.getByRole('link', { name: 'Pickup' }).first().click()
  await input(page, 'load_r').fill('10k')
  await page.getByRole('link', { name: 'All', exact: true }).click()
  await expect(page.locator('.calculators').getByRole('link', { name: 'Levels' })).toBeVisible()
  await page.goBack()
  await expect(input(page, 'load_r')).toHaveValue('10k')
  await expectAnswer(page, answer('pickup', { load_r: '10k' }))
  await page.goForward()
  await expect(page.locator('.calculators').getByRole('link', { name: 'Levels' })).toBeVisible()
})

test('back from the link of a lesson to the whole page, with the settings of its reader', async ({ page }) => {
  await open(page)
  await setting(page, 'feet')
  await page.evaluate(() => (location.hash = '#1/pickup?lesson'))
  await expect(page.locator('html[data-lesson]')).toHaveCount(1)
  await page.goBack()
  await expect(page.locator('.calculators').getByRole('link', { name: 'Levels' })).toBeVisible()
  await page.locator('.calculators').getByRole('link', { name: 'Pickup' }).first().click()
  await expectAnswer(page, answer('pickup', {}, { settings: { length: 'foot' } }))
})

for (const { id, title } of descriptions()) {
  const links = answer(id).report?.links ?? []
  if (links.length === 0) continue
  test(`from ${title} to the calculators that show more, and back`, async ({ page }) => {
    await open(page, `#1/${id}`)
    await layOut(page)
    for (const { text, calculator, values } of links) {
      await page.locator('.links').getByRole('link', { name: text, exact: true }).click()
      await expectAnswer(page, answer(calculator, Object.fromEntries(values)))
      await page.goBack()
      await expectAnswer(page, answer(id))
    }
  })
}
