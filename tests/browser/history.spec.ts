// Back and forward move between screens, each as it was left.

import { answer } from './engine'
import { expect, expectAnswer, input, open, reading, test } from './page'

test('back and forward', async ({ page }) => {
  await open(page)
  await page.getByRole('link', { name: 'Levels' }).click()
  await input(page, 'level').fill('-10 dBV')
  await page.goBack()
  await expect(page.getByRole('link', { name: 'Transformer' })).toBeVisible()
  await page.getByRole('link', { name: 'Pickup' }).first().click()
  await input(page, 'load_r').fill('10k')
  await page.getByRole('link', { name: 'All', exact: true }).click()
  await expect(page.getByRole('link', { name: 'Levels' })).toBeVisible()
  await page.goBack()
  await expect(input(page, 'load_r')).toHaveValue('10k')
  await expectAnswer(page, answer('pickup', { load_r: '10k' }))
  await page.goForward()
  await expect(page.getByRole('link', { name: 'Levels' })).toBeVisible()
})

test('a link within an answer leads to another calculator and back', async ({ page }) => {
  const [link] = answer('pickup').report?.links ?? []
  if (link === undefined) throw new Error('the pickup links to nothing')
  await open(page, '#1/pickup')
  await page.getByRole('link', { name: link.text }).click()
  await expectAnswer(page, answer(link.calculator, Object.fromEntries(link.values)))
  await page.goBack()
  await expect(reading(page, 'peak')).toHaveText('3.706 kHz')
})
