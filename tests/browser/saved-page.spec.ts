// The page that somebody keeps: one file that opens on the screen it was saved
// from, and can be made again from inside itself.

import { writeFileSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { pathToFileURL } from 'node:url'
import { test as plain, type Page, type TestInfo } from '@playwright/test'
import { answer } from './engine'
import { expect, expectAnswer, field, input, open, setting, test } from './page'
import { allForms, file, forms } from './places'

const CRUEL = '</script><!--<b>"&amp;\u2028\\'

for (const form of allForms) {
  test(`saved from the ${form === 'served' ? 'served page' : 'one file'}, and again from itself`, async ({
    page,
  }, info) => {
    await open(page, '#1/pickup/load_r=140k/load_r=10k?want=peak:3_kHz&field=lead_length', form)
    await setting(page, 'dark')
    const first = await save(page, info)
    expect(first.name).toMatch(/^stageohm-pickup-\d{4}-\d\d-\d\d\.html$/)

    await page.context().setOffline(true)
    await page.goto(first.url)
    await expectAnswer(page, answer('pickup', { load_r: '140k' }))
    await expect(page.locator('[data-held]')).toHaveCount(1)
    await expect(page.getByLabel('by changing')).toHaveValue('lead_length')
    await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')

    // From there it is a page like any other.
    await page.getByRole('link', { name: 'All' }).click()
    await expect(page.getByRole('searchbox')).toBeVisible()
    await page.goBack()
    await expectAnswer(page, answer('pickup', { load_r: '140k' }))

    await input(page, 'load_r').fill('47k')
    const second = await save(page, info)
    await page.goto(second.url)
    await expectAnswer(page, answer('pickup', { load_r: '47k' }))
    await expect(page.locator('[data-held]')).toHaveCount(1)
    const bytes = async (url: string) => (await readFile(new URL(url))).length
    // The browser puts quotes round attributes where the build leaves them out, once; then it grows no more.
    expect(Math.abs((await bytes(second.url)) - (await bytes(first.url)))).toBeLessThan(200)
    const third = await save(page, info)
    expect(await bytes(third.url)).toBe(await bytes(second.url))

    // An address says more than what the page begins with.
    await page.goto(`${second.url}#1/levels`)
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Levels')
  })
}

test('looks as it did when it was saved, whatever the reader has chosen elsewhere', async ({ page }, info) => {
  await open(page, '#1/pickup', 'one file')
  for (const name of ['stage', '1,5 comma', 'feet']) await setting(page, name)
  await page.locator('.working > summary').click()
  const { url } = await save(page, info)
  for (const name of ['light', '1.5 point', 'metres']) await setting(page, name)
  await page.goto(url)
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'stage')
  await expect(input(page, 'lead_length')).toHaveValue(/,.* ft$/)
  await expect(page.locator('[data-step]').first()).toBeVisible()
  // And the other way round: what is chosen here stays here.
  await setting(page, 'dark')
  await page.goto(forms['one file'])
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'light')
})

test('whatever was typed comes back as it was', async ({ page }, info) => {
  await open(page, '#1/pickup', 'one file')
  await input(page, 'load_r').fill(CRUEL)
  const typed = await input(page, 'load_r').inputValue()
  const { url } = await save(page, info)
  await page.goto(url)
  await expect(input(page, 'load_r')).toHaveValue(typed)
  await expect(field(page, 'load_r').locator('[data-problem]')).toBeVisible()
})

for (const text of ['{"hash":"#1/pickup/load_r=140k",}', '{"hash":7,"theme":"dark"}']) {
  test(`what it was to begin with is shown where it cannot be read: ${text}`, async ({ page }, info) => {
    const whole = await readFile(file, 'utf8')
    const spoiled = whole.replace(/(<script id="?beginning"?[^>]*>)[^<]*/, (_, start: string) => start + text)
    expect(spoiled).not.toBe(whole)
    await page.context().setOffline(true)
    await page.goto(keep(spoiled, info, 'spoiled.html'))
    const notice = page.getByRole('alert').filter({ hasText: 'saved with cannot be read' })
    await expect(notice.locator('pre')).toHaveText(text)
    // It stays while the page is used, and where it is saved as it is.
    await page.locator('.calculators [data-calculator="pad"]').click()
    await expect(notice.locator('pre')).toHaveText(text)
    expect(await page.locator('#beginning').textContent()).toContain('"unread"')
    await notice.getByRole('button', { name: 'Remove' }).click()
    await expect(notice).toHaveCount(0)
    expect(await page.locator('#beginning').textContent()).not.toContain('"unread"')
  })
}

// Chromium tells of the missing file.
plain('where the file is not reached, it says so, and everything stays', async ({ page }) => {
  await open(page, '#1/pickup')
  await page.route('**/stageohm.html', route => route.fulfill({ status: 404, body: 'gone' }))
  await page.getByRole('button', { name: 'Save page with my values' }).click()
  await expect(page.getByRole('alert')).toContainText('could not be saved')
  await expectAnswer(page, answer('pickup'))
})

// What is on the screen was drawn with sizes in attributes, which the policy of
// the file refuses until they are drawn again: Chromium tells, and no harm is done.
plain("saved by the browser's own Save As, as source and as drawn", async ({ page }, info) => {
  await page.context().setOffline(true)
  const troubles: Error[] = []
  page.on('pageerror', error => troubles.push(error))
  await page.goto(`${forms['one file']}#1/pickup/load_r=10k`)
  await expectAnswer(page, answer('pickup', { load_r: '10k' }))
  const untouched = await page.evaluate(() => `<!DOCTYPE html>${document.documentElement.outerHTML}`)
  await page.goto(keep(untouched, info, 'untouched.html'))
  await expectAnswer(page, answer('pickup', { load_r: '10k' }))
  await input(page, 'load_r').fill('140k')
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
  const drawn = await page.evaluate(() => `<!DOCTYPE html>\n<!-- saved -->\n${document.documentElement.outerHTML}`)

  await page.goto(keep(drawn, info, 'drawn.html'))
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
  await input(page, 'load_r').fill('1M')
  await expectAnswer(page, answer('pickup', { load_r: '1M' }))
  const { url } = await save(page, info)
  await page.goto(url)
  await expectAnswer(page, answer('pickup', { load_r: '1M' }))

  await page.goto(keep(await readFile(file, 'utf8'), info, 'source.html'))
  await expect(page.getByRole('searchbox')).toBeVisible()
  expect(troubles).toEqual([])
})

async function save(page: Page, info: TestInfo): Promise<{ name: string; url: string }> {
  const waiting = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save page with my values' }).click()
  const got = await waiting
  const name = got.suggestedFilename()
  const path = info.outputPath(`${Date.now()}-${name}`)
  await got.saveAs(path)
  await expect(page.getByText('Saved.')).toBeVisible()
  return { name, url: pathToFileURL(path).href }
}

function keep(text: string, info: TestInfo, name: string): string {
  const path = info.outputPath(name)
  writeFileSync(path, text)
  return pathToFileURL(path).href
}
