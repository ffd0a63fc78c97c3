// In a frame that may neither save nor open nor copy, the page says so and shows
// the text instead.

import type { FrameLocator, Page } from '@playwright/test'
import { test as plain, expect } from '@playwright/test'
import { address } from './places'

// What the browser says of each refusal in its console is no fault of the page.
const test = plain

async function frame(page: Page, hash: string, sandbox = 'allow-scripts'): Promise<FrameLocator> {
  await page.goto(`${address}lesson.html`)
  await page.evaluate(
    ([src, sandbox]) => {
      const frame = document.createElement('iframe')
      frame.setAttribute('sandbox', sandbox ?? '')
      frame.src = src ?? ''
      frame.width = '900'
      frame.height = '900'
      document.body.replaceChildren(frame)
    },
    [`${address}stageohm.html${hash}`, sandbox],
  )
  const inside = page.frameLocator('iframe')
  await expect(inside.getByRole('heading', { level: 1 })).toBeVisible()
  return inside
}

async function unfold(inside: FrameLocator): Promise<void> {
  const closed = inside.locator('main details:not([open]) > summary')
  while ((await closed.count()) > 0) await closed.first().click()
}

test('saving shows what would have been saved', async ({ page }) => {
  const inside = await frame(page, '#1/pickup/load_r=140k?lesson')
  await unfold(inside)
  await inside.getByRole('button', { name: 'Save all results as CSV' }).click()
  const readings = inside.locator('.further .by-hand')
  await expect(readings).toContainText('If no file was saved')
  await expect(readings.locator('textarea')).toHaveValue(/Load resistance,140,kΩ/)
  const plot = inside.locator('.export').first()
  await plot.getByRole('button', { name: 'Save SVG' }).click()
  await expect(plot.locator('textarea')).toHaveValue(/^<svg/)
  await plot.getByRole('button', { name: 'Save PNG' }).click()
  await expect(plot.getByRole('status').filter({ hasText: 'If no file was saved' })).toBeVisible()
})

test('opening and copying say that they may not, and give the text', async ({ page }) => {
  const inside = await frame(page, '#1/pickup/load_r=140k?lesson&show=working')
  await inside.getByRole('link', { name: 'Open in full' }).click()
  const notice = inside.getByRole('alert')
  await expect(notice).toContainText('does not allow opening another')
  await expect(notice.locator('textarea')).toHaveValue(/stageohm\.html#1\/pickup\/load_r=140k$/)
  await notice.getByRole('button', { name: 'Close' }).click()
  await inside.getByRole('button', { name: 'Copy as text' }).click()
  await expect(inside.locator('.working textarea')).toHaveValue(/=/)
})

test('a link far down the page brings the word into sight', async ({ page }) => {
  const inside = await frame(page, '#1/whole-line?lesson')
  await inside.locator('.links a').first().click()
  await expect(inside.getByRole('alert')).toBeInViewport()
  await expect(inside.getByRole('alert').locator('textarea')).toHaveValue(/#1\//)
})

test('the whole page in such a frame says it of saving and printing too', async ({ page }) => {
  const inside = await frame(page, '#1/pickup')
  await inside.getByRole('button', { name: 'Save page with my values' }).click()
  await expect(inside.getByRole('region', { name: 'Share' })).toContainText('If no file was saved')
  await inside.getByRole('button', { name: 'Print', exact: true }).click()
  await expect(inside.getByRole('region', { name: 'Share' })).toContainText('does not allow printing')
})

test('a lesson is written there, is kept while the page is open, and the page says that it is not longer', async ({
  page,
}) => {
  const inside = await frame(page, '#1/lesson/draft?view=edit')
  const title = inside.getByLabel('Title of the lesson')
  await title.fill('Here and now')
  await expect(inside.getByText('This browser keeps nothing')).toBeVisible()
  await inside.getByLabel('Add a step').selectOption('Number')
  // Another screen adds to it.
  await inside.getByRole('link', { name: 'All', exact: true }).click()
  await inside.locator('main a[href="#1/pad"]').first().click()
  await inside.locator('.ask-about').getByRole('button').click()
  await inside.locator('.ask-about').getByRole('link', { name: 'Edit the lesson' }).click()
  await expect(inside.locator('.edit-steps li')).toHaveCount(2)
  await inside.locator('.edit-head').click()
  await expect(title).toHaveValue('Here and now')
  await expect(inside.getByText('This browser keeps nothing')).toBeVisible()
  await inside.getByRole('button', { name: 'Save as file' }).click()
  await expect(inside.locator('.edit-along textarea')).toHaveValue(/"title": "Here and now"/)
})

test('a frame that may open opens', async ({ page }) => {
  const inside = await frame(page, '#1/pickup?lesson', 'allow-scripts allow-popups allow-popups-to-escape-sandbox')
  const popup = page.waitForEvent('popup')
  await inside.getByRole('link', { name: 'Open in full' }).click()
  const opened = await popup
  await expect(opened.getByRole('heading', { level: 1 })).toHaveText('Pickup, lead and load')
  expect(await opened.evaluate(() => opener === null)).toBe(true)
  await expect(inside.getByRole('alert')).toHaveCount(0)
})

test('outside of frames nothing of it is said', async ({ page }) => {
  await page.goto(`${address}#1/pickup`)
  const download = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save all results as CSV' }).click()
  await download
  await expect(page.getByText('If no file was saved')).toHaveCount(0)
})
