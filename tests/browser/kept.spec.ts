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
  await expect(page.getByText("can't save your settings")).toBeVisible()
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
  // The list is drawn once more when all of it has come, and would read them too.
  await expect(page.locator('.look-ups')).toBeVisible()
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

const refusals = {
  'with an error': () => {
    Storage.prototype.removeItem = () => {
      throw new DOMException('refused', 'SecurityError')
    }
  },
  silently: () => {
    Storage.prototype.removeItem = () => undefined
  },
}

for (const [how, refuse] of Object.entries(refusals)) {
  test(`damage that cannot be removed, ${how}, is shown once and let go`, async ({ page }) => {
    await page.addInitScript(refuse)
    await open(page)
    await page.evaluate(() => {
      localStorage.setItem('stageohm.damaged', 'neither can this')
      localStorage.setItem('stageohm.pinned', 'no text of ours')
    })
    for (let visit = 0; visit < 3; visit++) {
      await page.reload()
      const notice = page.getByRole('alert')
      await expect(notice.locator('pre')).toContainText(['pinned = no text of ours'])
      const pieces = await notice.locator('pre').allTextContents()
      expect(pieces).toEqual([...new Set(pieces)])
      expect(pieces.length).toBeLessThanOrEqual(2)
      // The page goes on.
      await page.locator('.calculators [data-calculator="pickup"]').click()
      await page.locator('.pin').click()
      await page.getByRole('link', { name: 'All' }).click()
      await expect(page.locator('.at-hand a').first()).toHaveText(/Pickup.*pinned/)
      await notice.getByRole('button', { name: 'Remove' }).click()
      await expect(notice).toHaveCount(0)
      await page.evaluate(() => localStorage.setItem('stageohm.pinned', 'no text of ours'))
    }
  })
}

test('a choice that a full browser does not keep is told of, once', async ({ page }) => {
  await page.addInitScript(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException('full', 'QuotaExceededError')
    }
  })
  await open(page, '#1/pickup')
  const told = page.getByText("can't save your settings")
  // The screens that were used are kept unasked; that they are not is nothing to tell.
  await input(page, 'load_r').fill('140k')
  await page.getByRole('link', { name: 'All' }).click()
  await expect(page.locator('.at-hand a')).toHaveText(/^Pickup/)
  await expect(told).toHaveCount(0)
  await setting(page, 'dark')
  await expect(page.getByRole('status').filter({ has: told })).toBeVisible()
  await expect(told).toContainText('until this page is reloaded or closed')
  await page.locator('main').getByRole('button', { name: 'Close', exact: true }).click()
  await expect(told).toHaveCount(0)
  await expect(page.locator('main')).toBeFocused()
  await setting(page, 'feet')
  await page.locator('.calculators [data-calculator="pickup"]').click()
  await page.locator('.pin').click()
  await expect(page.locator('.pin')).toHaveAttribute('aria-pressed', 'true')
  await expect(told).toHaveCount(0)
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')
  await expect(input(page, 'lead_length')).toHaveValue(/ft$/)
})

test('a browser that keeps all has nothing to tell', async ({ page }) => {
  await open(page, '#1/pickup')
  await setting(page, 'dark')
  await page.locator('.pin').click()
  await expect(page.getByText("can't save your settings")).toHaveCount(0)
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

test('what is chosen in a tab of another language leaves the decimal sign of this one', async ({ page, context }) => {
  const other = await context.newPage()
  await open(page, '#1/pickup/lead_length=2.5?language=es')
  await expect(input(page, 'lead_length')).toHaveValue(/^2,5/)
  await open(other, '#1/levels?language=en')
  await setting(other, 'feet')
  await expect(input(page, 'lead_length')).toHaveValue(/^8,2.*ft$/)
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
  await expect(other.locator('.at-hand a')).toHaveText([/^Pickup.*pinned/, /^Levels.*pinned/, /^Pickup.*140k/])
  await other.getByRole('button', { name: 'Settings' }).click()
  await expect(other.getByRole('radio', { name: 'feet' })).toBeChecked()
})
