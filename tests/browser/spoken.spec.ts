// What a screen reader says.

import { descriptions } from './engine'
import { expect, field, input, open, test } from './page'

test('an answer is read out on its own screen only', async ({ page }) => {
  await open(page, '#1/pickup')
  const said = page.locator('p.unseen[role=status]')
  await input(page, 'load_r').fill('140k')
  await expect(said).not.toHaveText('')
  await page.evaluate(() => (location.hash = '#1/levels'))
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Levels')
  await expect(said).toHaveText('')
  await input(page, 'level').fill('-10')
  await expect(said).not.toHaveText('')
  await page.evaluate(() => (location.hash = ''))
  await expect(page.getByRole('searchbox')).toBeVisible()
  await expect(said).toHaveText('')
})

test('a help button names its field once', async ({ page }) => {
  await open(page, '#1/box-or-straight')
  await expect(field(page, 'source').getByRole('button', { name: 'Help: What is it?', exact: true })).toBeVisible()
  for (const { id } of descriptions()) {
    await open(page, `#1/${id}`)
    await expect(page.locator('button.help').first()).toBeVisible()
    const names = await page.locator('button.help').evaluateAll(all => all.map(help => help.getAttribute('aria-label')))
    for (const name of names) expect(name).not.toMatch(/\?\?|What is What/)
  }
})
