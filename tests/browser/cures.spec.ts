// What would put an answer right, by one tap.

import { expect, test } from '@playwright/test'

test('a tap puts it right, and going back undoes it', async ({ page }) => {
  await page.goto('#1/whole-line/lead_length=15')
  const cures = page.locator('.cures a')
  await expect(cures.first()).toContainText('Shorten the first lead to')
  await cures.first().click()
  await expect(page.locator('[data-field="lead_length"] input').first()).not.toHaveValue(/^15/)
  await expect(page.locator('.cures')).toHaveCount(0)
  await page.goBack()
  await expect(page.locator('[data-field="lead_length"] input').first()).toHaveValue(/^15/)
  await expect(cures.first()).toContainText('Shorten the first lead to')
})

test('what was changed is said, and the answer is where one goes on', async ({ page }) => {
  await page.goto('#1/whole-line/lead_length=15')
  const cure = page.locator('.cures a').first()
  const text = (await cure.textContent()) ?? ''
  await cure.click()
  await expect(page.getByRole('status').filter({ hasText: `Changed: ${text}` })).toBeVisible()
  await expect(page.locator('#answer')).toBeFocused()
  // Of the next change that is not true.
  await page.locator('[data-field="run_length"] input').first().fill('20')
  await expect(page.getByRole('status').filter({ hasText: 'Changed' })).toHaveCount(0)
})

test('a ranking is put right in its own fields', async ({ page }) => {
  await page.goto('#1/box-or-straight/lead_length=15')
  await page.locator('.cures a', { hasText: 'Shorten the first lead' }).click()
  await expect(page).toHaveURL(/box-or-straight/)
  await expect(page.locator('.headline')).toContainText('meets all your limits')
})

test('nothing is put right where nothing is missed, where the input is wrong, or in a lesson', async ({ page }) => {
  await page.goto('#1/whole-line')
  await expect(page.locator('.headline')).toBeVisible()
  await page.waitForTimeout(500)
  await expect(page.locator('.cures')).toHaveCount(0)
  await page.goto('#1/whole-line/lead_length=15')
  await expect(page.locator('.cures')).toBeVisible()
  await page.locator('[data-field="lead_length"] input').first().fill('15 x')
  await expect(page.locator('.cures')).toHaveCount(0)
  await page.goto('#1/whole-line/lead_length=15?lesson')
  await expect(page.locator('.headline')).toBeVisible()
  await page.waitForTimeout(500)
  await expect(page.locator('.cures')).toHaveCount(0)
})
