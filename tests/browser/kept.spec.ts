// What the browser keeps for the page: refused, damaged, or shared by two tabs.

import { answer } from './engine'
import { expect, expectAnswer, input, open, setting, test } from './page'

test('everything works where storage is refused', async ({ page }) => {
  await page.addInitScript(() => {
    for (const name of ['localStorage', 'sessionStorage', 'caches', 'indexedDB']) {
      Object.defineProperty(window, name, {
        get() {
          throw new DOMException('refused', 'SecurityError')
        },
      })
    }
  })
  await open(page, '#1/pickup')
  await input(page, 'load_r').fill('140k')
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
  await setting(page, 'dark')
  await setting(page, 'feet')
  await page.locator('.pin').click()
  await page.getByRole('link', { name: 'All' }).click()
  // As long as the page is open, it remembers.
  await expect(page.locator('.at-hand a')).toHaveText(/Pickup.*pinned/)
  await page.locator('.at-hand a').click()
  await expect(input(page, 'load_r')).toHaveValue('140k')
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')
})

test('what cannot be read is shown, and the page goes on', async ({ page }) => {
  const raw = { preferences: '{"theme":"dark', recent: '[{"calculator":7}]', pinned: '["pad"]' }
  await open(page)
  await page.evaluate(raw => {
    for (const [key, text] of Object.entries(raw)) localStorage.setItem(`stageohm.${key}`, text)
  }, raw)
  await page.reload()
  const notice = page.getByRole('alert')
  await expect(notice).toContainText('can no longer be read')
  await expect(notice.locator('pre')).toHaveText([`preferences = ${raw.preferences}`, `recent = ${raw.recent}`])
  await expect(page.locator('.at-hand a')).toHaveText(/^Pads/)
  await notice.getByRole('button', { name: 'Remove' }).click()
  await expect(notice).toHaveCount(0)
  await page.reload()
  await expect(page.locator('.at-hand a')).toHaveText(/^Pads/)
  await expect(page.getByRole('alert')).toHaveCount(0)
})

test('damage that is found on a calculator is shown there', async ({ page }) => {
  await open(page)
  await page.evaluate(() => localStorage.setItem('stageohm.recent', 'no text of ours'))
  await open(page, '#1/levels')
  await page.reload()
  await expect(page.getByRole('alert').locator('pre')).toHaveText('recent = no text of ours')
})

test('what is chosen in one tab counts in the other', async ({ page, context }) => {
  const other = await context.newPage()
  await open(page, '#1/pickup')
  await open(other)
  await setting(other, 'dark')
  await setting(other, 'feet')
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')
  await expect(input(page, 'lead_length')).toHaveValue(/ft$/)
})

test('two tabs do not undo what the other one keeps', async ({ page, context }) => {
  const other = await context.newPage()
  await open(page, '#1/pickup')
  await open(other, '#1/levels')
  await setting(page, 'dark')
  await setting(other, 'feet')
  await page.locator('.pin').click()
  await other.locator('.pin').click()
  await input(page, 'load_r').fill('140k')
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
  await page.close()
  await open(other)
  await other.reload()
  await expect(other.locator('html')).toHaveAttribute('data-theme', 'dark')
  await expect(other.locator('.at-hand a')).toHaveText([/^Pickup.*pinned/, /^Levels.*pinned/])
  await other.getByRole('button', { name: 'Settings' }).click()
  await expect(other.getByRole('radio', { name: 'feet' })).toBeChecked()
})
