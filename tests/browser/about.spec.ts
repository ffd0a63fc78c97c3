// What the page says of itself, and the licences that it passes on.

import { readFileSync } from 'node:fs'
import { expect, open, test } from './page'
import { allForms } from './places'

const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
  readonly version: string
}

for (const form of allForms) {
  test(`from the start to the notices of all libraries, ${form}`, async ({ page }) => {
    await open(page, '', form)
    await page.getByRole('link', { name: 'About Stageohm' }).click()
    await expect(page.getByRole('heading', { level: 1 })).toBeFocused()
    await expect(page).toHaveTitle('About Stageohm · Stageohm')
    await expect(page.locator('main')).toContainText(`Version ${version}`)
    await expect(page.locator('main')).toContainText('Nothing is ever sent anywhere')
    const notices = page.getByLabel('Libraries in this page, and their licences')
    // Two of the engine, two of the page, and the words that both ask to be passed on.
    for (const name of ['serde', 'num-complex', 'Rust standard library', 'preact', 'minisearch', 'd3-scale']) {
      await expect(notices).toContainText(new RegExp(`^${name} \\d`, 'm'))
    }
    await expect(notices).toContainText('Permission is hereby granted, free of charge')
    await expect(notices).toContainText('THE SOFTWARE IS PROVIDED “AS IS”'.replace(/[“”]/g, '"'))
    await page.goBack()
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('What reaches the console')
  })
}

test('the notices stand beside the page too', async ({ page }) => {
  await open(page)
  const text = await page.evaluate(() => fetch('notices.txt').then(answer => answer.text()))
  expect(text).toContain('wasm-bindgen')
})
