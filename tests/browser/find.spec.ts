// Questions as people ask them, and what each finds first; from every page, by
// keys and by hand, and without a network.

import type { Page } from '@playwright/test'
import { expect, field, input, open, test } from './page'
import { allForms } from './places'

const box = (page: Page) => page.getByLabel('What do you want to know?')
const hits = (page: Page) => page.locator('.hits li')
const first = (page: Page) => hits(page).first()

/** A question, the title and the kind of what it finds first, and what of it is filled in. */
const QUESTIONS: [question: string, title: string, kind: string, fills?: string[]][] = [
  ['hum on the keys', 'Ground loop', 'Calculator'],
  ['hum bass', 'Ground loop', 'Calculator'],
  ['buzz on the bass', 'DI box or straight in', 'Calculator', ['What is it? passive bass']],
  ['laptop buzz', 'DI box or straight in', 'Calculator', ['What is it? laptop, tablet or phone']],
  ['acoustic DI', 'DI box or straight in', 'Calculator', ['What is it? piezo without a preamp']],
  ['speaker level into DI', 'DI box or straight in', 'Calculator'],
  ['dull', 'Lead and line length', 'Calculator'],
  ['+4 dBu into -10 dBV', 'Levels', 'Calculator', ['Level: +4 dBu', 'Into an input made for: -10 dBV']],
  ['XLR TRS pinout', 'TRS jack to XLR, balanced', 'Lead'],
  ['phantom 80 m', 'Phantom supply', 'Calculator', ['Lead length: 80 m']],
  ['P24', 'Phantom supply', 'Calculator', ['Phantom: P24']],
  ['P24 80 m', 'Phantom supply', 'Calculator', ['Phantom: P24', 'Lead length: 80 m']],
  ['which DI for a passive bass', 'DI box or straight in', 'Calculator', ['What is it? passive bass']],
  ['will a 12 m lead dull this guitar', 'Lead and line length', 'Calculator', ['Lead length: 12 m']],
  ['12 m lead guitar', 'Lead and line length', 'Calculator', ['Lead length: 12 m']],
  ['does an active DI run on P24 over 80 m', 'Phantom supply', 'Calculator', ['Phantom: P24', 'Lead length: 80 m']],
  ['phantm', 'Phantom supply', 'Calculator'],
  ['phantm 80 m', 'Phantom supply', 'Calculator', ['Lead length: 80 m']],
  ['grund loop', 'Ground loop', 'Calculator'],
  ['direct box', 'DI box (direct box)', 'Term'],
  ['1/4 in', 'TS jack, 6.35 mm', 'Connector'],
  ['xlr lead', 'XLR lead', 'Lead'],
  ['mic cable', 'XLR lead', 'Lead'],
  ['earth loop', 'Ground loop', 'Calculator'],
  ['electric shock', 'Find the fault', 'Calculator'],
  ['blind test', 'Lessons', 'Calculator'],
  ['re-amping', 'Re-amping: console into a guitar amplifier', 'Example'],
]

for (const form of allForms) {
  test(`what each question finds first, ${form}`, async ({ page }) => {
    await open(page, '', form)
    for (const [question, title, kind, fills = []] of QUESTIONS) {
      await box(page).fill(question)
      await expect.soft(first(page).locator('.title'), question).toHaveText(title)
      await expect.soft(first(page).locator('.kind'), question).toHaveText(kind)
      const told = await first(page).locator('.fills > span').allTextContents()
      expect.soft(told, question).toEqual(expect.arrayContaining(fills))
    }
  })
}

test('what is filled in is in the calculator that opens', async ({ page }) => {
  await open(page)
  await box(page).fill('passive bass 6 m + 30 m')
  await expect(first(page).locator('.title')).toHaveText('DI box or straight in')
  await box(page).press('Enter')
  await expect(page.locator('.answer')).toBeVisible()
  await expect(field(page, 'source').locator('select')).toHaveValue('bass')
  await expect(input(page, 'lead_length')).toHaveValue('6 m')
  await expect(input(page, 'run_length')).toHaveValue('30 m')
})

test('an example opens its calculator as the example is', async ({ page }) => {
  await open(page)
  await box(page).fill('professional output into a consumer input')
  await first(page).getByRole('link').click()
  await expect(input(page, 'level')).toHaveValue('+4 dBu')
  await expect(input(page, 'into')).toHaveValue('-10 dBV')
  await expect(page.locator('[data-held]')).toHaveCount(1)
})

test('what has no exact match shows the closest, and nothing is ever empty', async ({ page }) => {
  await open(page)
  await box(page).fill('phantm')
  await expect(page.locator('.count')).toHaveText('No exact match; closest:')
  await box(page).fill('phantom')
  await expect(page.locator('.count')).toHaveText(/^\d+ of \d+$/)
  for (const nothing of ['qqqq', '€', 'xyzzy plugh', 'the', '12 pigs', '<b>']) {
    await box(page).fill(nothing)
    await expect(page.locator('.count'), nothing).toHaveText(/closest|All the calculators|\d/)
    expect(await hits(page).count(), nothing).toBeGreaterThan(0)
  }
})

test('/ and Ctrl+K open the search over any page, and Escape closes it', async ({ page }) => {
  await open(page, '#1/pickup/load_r=140k')
  const dialog = page.getByRole('dialog', { name: 'Search' })
  for (const key of ['/', 'Control+k', 'Meta+k']) {
    await page.keyboard.press(key)
    await expect(dialog).toBeVisible()
    await expect(box(page)).toBeFocused()
    await page.keyboard.press('Escape')
    // Gone, not only hidden: until then it is the same dialog, on its way out.
    await expect(page.locator('.seek-dialog')).toHaveCount(0)
  }
  // So does another screen.
  await page.keyboard.press('/')
  await page.evaluate(() => (location.hash = '#1/levels'))
  await expect(dialog).toBeHidden()
  await page.goBack()
  await expect(input(page, 'load_r')).toHaveValue('140k')
  // Where a slash is typed it is a slash; the other key works there too.
  await input(page, 'load_r').focus()
  await page.keyboard.type('/')
  await expect(dialog).toBeHidden()
  await page.keyboard.press('Control+k')
  await box(page).fill('P24 80 m')
  await page.keyboard.press('ArrowDown')
  await expect(first(page).getByRole('link')).toBeFocused()
  await page.keyboard.press('ArrowDown')
  await expect(hits(page).nth(1).getByRole('link')).toBeFocused()
  await page.keyboard.press('ArrowUp')
  await page.keyboard.press('Enter')
  await expect(dialog).toBeHidden()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Phantom supply')
  await expect(input(page, 'lead_length')).toHaveValue('80 m')
})

test('what is typed at once is in the search, though what searches has not come', async ({ page }) => {
  await page.route(/search-\w+\.js$/, () => undefined)
  await open(page, '#1/pickup/load_r=140k')
  await input(page, 'load_r').focus()
  const focused = await page.evaluate(async () => {
    const key = { key: 'k', ctrlKey: true, bubbles: true, cancelable: true }
    document.activeElement?.dispatchEvent(new KeyboardEvent('keydown', key))
    await Promise.resolve()
    return document.activeElement?.id
  })
  expect(focused).toBe('seek')
  await page.keyboard.type('hum')
  await expect(box(page)).toHaveValue('hum')
  await expect(input(page, 'load_r')).toHaveValue('140k')
})

test('on the start page the keys lead to its own box', async ({ page }) => {
  await open(page)
  await page.keyboard.press('/')
  await expect(box(page)).toBeFocused()
  await expect(box(page)).toHaveValue('')
  await expect(page.getByRole('dialog')).toHaveCount(0)
})

test('the key / can be switched off, and stays so', async ({ page }) => {
  await open(page, '#1/levels')
  await page.getByRole('button', { name: 'Settings' }).click()
  await page.getByRole('group', { name: 'Key /' }).getByRole('radio', { name: 'does nothing' }).check({ force: true })
  await page.reload()
  await page.locator('h1').click()
  await page.keyboard.press('/')
  await expect(page.getByRole('dialog')).toHaveCount(0)
  await page.keyboard.press('Control+k')
  await expect(page.getByRole('dialog')).toBeVisible()
})

test('a lesson has no search', async ({ page }) => {
  await open(page, '#1/levels?lesson')
  await page.keyboard.press('/')
  await page.keyboard.press('Control+k')
  await expect(page.getByRole('dialog')).toHaveCount(0)
  await expect(page.getByRole('button', { name: 'Search' })).toHaveCount(0)
})

test('a search that does not come says so, and comes once it can', async ({ page }) => {
  let gone = true
  await page.route(/search-\w+\.js$/, route => (gone ? route.fulfill({ status: 200, body: '' }) : route.continue()))
  await open(page, '#1/?find=phantom')
  await expect(page.locator('.count')).toContainText('did not load')
  gone = false
  await box(page).fill('phantom 80 m')
  await expect(first(page).locator('.title')).toHaveText('Phantom supply')
})

test.describe('on a phone', () => {
  test.use({ viewport: { width: 360, height: 740 }, hasTouch: true })

  test('a button in the header, and one thumb', async ({ page }) => {
    await open(page, '#1/pickup')
    const button = page.getByRole('button', { name: 'Search' })
    const { width, height } = (await button.boundingBox()) ?? { width: 0, height: 0 }
    expect(Math.min(width, height)).toBeGreaterThanOrEqual(44)
    await button.tap()
    await box(page).fill('hum on the keys')
    await expect(first(page)).toBeInViewport()
    for (const link of await page.locator('.hits a').all())
      expect((await link.boundingBox())?.height).toBeGreaterThanOrEqual(44)
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(360)
    await first(page).getByRole('link').tap()
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('Ground loop')
  })
})
