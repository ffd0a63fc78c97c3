// A field whose unit is chosen reads as the choice says, also while nothing was
// typed into it.

import { answer } from './engine'
import { expect, expectAnswer, field, input, open, test } from './page'

test('the default of a level follows the unit that is chosen', async ({ page }) => {
  await open(page, '#1/levels')
  await expect(input(page, 'level')).toHaveValue('4 dBu')
  await field(page, 'unit').locator('select').selectOption('volt')
  await expect(input(page, 'level')).toHaveValue('4 V')
  await expectAnswer(page, answer('levels', { unit: 'volt' }))
  await page.reload()
  await expect(input(page, 'level')).toHaveValue('4 V')
})

test('what reads as the default elsewhere is kept under another unit', async ({ page }) => {
  await open(page, '#1/levels/unit=volt&level=2')
  await input(page, 'level').fill('4 dBu')
  await expectAnswer(page, answer('levels', { level: '4 dBu' }))
  await expect(page).toHaveURL(/level=4_dBu/)
})

test('a number under two names is chosen under both', async ({ page }) => {
  await open(page, '#1/source-load')
  const marks = field(page, 'source_r').getByRole('button', { name: /^200\sΩ/ })
  await marks.last().click()
  await expect(marks).toHaveCount(2)
  for (const mark of await marks.all()) await expect(mark).toHaveAttribute('aria-pressed', 'true')
})

test('a spectrum is read where it is, and at no place between', async ({ page }) => {
  await open(page, '#1/ground-loop')
  const cursor = page.getByRole('slider', { name: /^Read/ }).first()
  await cursor.focus()
  for (const frequency of [/^(150|250)\sHz.*dBu/, /^(250|350)\sHz.*dBu/]) {
    await cursor.press('ArrowRight')
    await expect(cursor).toHaveAttribute('aria-valuetext', frequency)
  }
})
