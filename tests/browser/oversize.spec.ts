// However long a link is or what is typed, the page says what is too much, keeps
// the text, and goes on at once.

import { answer } from './engine'
import { expect, expectAnswer, field, input, open, setting, test } from './page'
import { allForms } from './places'

/** The most that is read of a link, in characters behind its `#`. */
const LONGEST = 65_536
const MEGABYTE = 1_000_000
/** Short names, each another one. */
const names = (count: number) => Array.from({ length: count }, (_, index) => index.toString(36))
const kept = () => Object.entries(localStorage).map(([key, text]) => `${key} ${text}`)

for (const form of allForms) {
  for (const [what, hash] of [
    ['a book in a field', `#1/pickup/load_r=${'x'.repeat(MEGABYTE)}`],
    [
      'twenty thousand fields',
      `#1/pickup/${names(20_000)
        .map(name => `f${name}=1`)
        .join('&')}`,
    ],
  ] as const) {
    test(`a link with ${what} is not read, ${form}`, async ({ page }) => {
      await page.context().grantPermissions(['clipboard-read', 'clipboard-write'])
      await open(page, hash, form)
      const notice = page.locator('main .notice')
      await expect(notice).toContainText(`${hash.length - 1} characters`)
      await expect(notice).toContainText(`the limit is ${LONGEST}`)
      // Its beginning is shown; all of it can be rescued.
      await expect(notice.locator('pre')).toContainText(hash.slice(1, 100))
      expect((await notice.locator('pre').textContent())?.length).toBeLessThan(1000)
      await notice.getByRole('button', { name: 'Copy this text' }).click()
      await expect(notice.getByRole('status')).toHaveText('Copied.')
      const { address } = await page.evaluate(() => ({ address: location.href.replace(/#.*/, '') }))
      expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(address + hash)

      // The page is there, and nothing of it is kept anywhere.
      await page.locator('main a[data-calculator="levels"]').click()
      await expectAnswer(page, answer('levels'))
      await page.goBack()
      await expect(notice).toContainText('too long')
      for (const text of await page.evaluate(kept)) expect(text.length).toBeLessThan(1000)
      expect((await page.locator('#beginning').allTextContents()).join('').length).toBeLessThan(1000)
    })
  }
}

test('a link as long as may be is read, one longer is not', async ({ page }) => {
  const link = '1/pickup/load_r=10k&lead_length='
  const filled = `${link}6${'_'.repeat(LONGEST - link.length - 1)}`
  expect(filled).toHaveLength(LONGEST)
  await open(page, `#${filled}`)
  await expectAnswer(page, answer('pickup', { load_r: '10k', lead_length: '6' }))
  await page.evaluate(hash => (location.hash = hash), `${filled}_`)
  await expect(page.locator('main .notice')).toContainText(`${LONGEST + 1} characters`)
})

for (const [what, hash, message] of [
  [
    'fields',
    `#1/pickup/load_r=10k&${names(12_000)
      .map(name => `${name}=`)
      .join('&')}`,
    'nor 11999 others',
  ],
  ['held sets', `#1/pickup/load_r=10k${'/load_r=1M'.repeat(6000)}`, 'and 5985 more'],
  ['slashes', `#1/pickup/load_r=10k${'/'.repeat(65_000)}`, null],
  ['tolerances', `#1/pickup/load_r=10k?${'tol=5&'.repeat(10_000)}`, null],
  [
    'kinds of parts',
    `#1/pickup/load_r=10k?tol=${names(12_000)
      .map(name => `${name}:5`)
      .join(',')}`.slice(0, 65_000),
    null,
  ],
  ['broken percents', `#1/pickup/load_r=10k&lead_length=${'%E0%A4%A'.repeat(8000)}`, null],
  ['percents', `#1/pickup/load_r=10k&lead_length=${'%25'.repeat(21_000)}`, null],
  [
    'loose pieces',
    `#1/pickup/load_r=10k?${names(12_000)
      .map(name => `x${name}`)
      .join('&')}`,
    'and 11988 more',
  ],
  [
    'settings',
    `#1/pickup/load_r=10k?in=${names(12_000)
      .map(name => `x${name}`)
      .join(',')}`,
    'and 11988 more',
  ],
] as const) {
  test(`a link full of ${what}`, async ({ page }) => {
    expect(hash.length).toBeLessThanOrEqual(LONGEST + 1)
    await open(page, hash)
    if (message !== null) await expect(page.locator('main .notice').first()).toContainText(message)
    await expect(input(page, 'load_r')).toHaveValue('10k')
    await input(page, 'lead_length').fill('6 m')
    await expectAnswer(page, answer('pickup', { load_r: '10k', lead_length: '6 m' }))
    expect(await page.locator('main .notice').count()).toBeLessThan(10)
    expect(await page.locator('main pre').count()).toBeLessThan(100)
  })
}

test('strange fields without number are taken out together', async ({ page }) => {
  await open(
    page,
    `#1/pickup/load_r=10k&${names(100)
      .map(name => `${name}=1`)
      .join('&')}`,
  )
  await page.locator('main .notice').getByRole('button', { name: 'Remove' }).click()
  await expect(page.locator('main .notice')).toHaveCount(0)
  await expect(page).toHaveURL(/pickup\/load_r=10k$/)
})

for (const form of allForms) {
  test(`a book pasted into a field stays there, and nowhere else, ${form}`, async ({ page }) => {
    await open(page, '#1/pickup/load_r=10k', form)
    await expectAnswer(page, answer('pickup', { load_r: '10k' }))
    const book = '4k7 and so on. '.repeat(MEGABYTE / 15)
    await input(page, 'lead_length').fill(book)
    await expect(field(page, 'lead_length').locator('[data-problem]')).toContainText('the limit is 200 characters')
    await expect(input(page, 'lead_length')).toHaveAttribute('aria-invalid', 'true')
    await expect(page.locator('main .notice')).toContainText('too long for a link')
    await expectStale()
    // Other fields work beside it, and all that is kept is what was there before.
    await input(page, 'load_r').fill('20k')
    await expectStale()
    expect((await input(page, 'lead_length').inputValue()).length).toBe(book.length)
    await setting(page, 'feet')
    expect((await input(page, 'lead_length').inputValue()).length).toBe(book.length)
    expect(new URL(page.url()).hash).toBe('#1/pickup/load_r=10k')
    await page.getByRole('button', { name: 'Keep to compare' }).click()
    await page.locator('[data-held]').getByRole('button', { name: 'Remove' }).click()
    await expect(page.locator('[data-held]')).toHaveCount(0)
    expect(new URL(page.url()).hash).toBe('#1/pickup/load_r=10k')
    // What was noted is written when the page is left.
    await page.evaluate(() => dispatchEvent(new Event('pagehide')))
    for (const text of await page.evaluate(kept)) expect(text.length).toBeLessThan(1000)
    expect((await page.locator('#beginning').allTextContents()).join('').length).toBeLessThan(1000)

    await input(page, 'lead_length').fill('6 m')
    await expect(page.locator('main .notice')).toHaveCount(0)
    await expect(page).toHaveURL(/load_r=20k&lead_length=6_m/)

    async function expectStale() {
      await expect(page.locator('.answer')).toHaveAttribute('data-stale', 'true')
    }
  })
}

test('a text that is too long for a field and not for a link is in it', async ({ page }) => {
  const text = '1'.repeat(500)
  await open(page, '#1/pickup')
  await input(page, 'load_r').fill(text)
  await expect(field(page, 'load_r').locator('[data-problem]')).toContainText('the limit is 200 characters')
  await expect(page).toHaveURL(new RegExp(`load_r=${text}$`))
  await page.reload()
  await expect(input(page, 'load_r')).toHaveValue(text)
})

test('a book as a wanted value', async ({ page }) => {
  await open(page, '#1/pickup')
  await page.getByRole('button', { name: 'Solve for … from Resonance', exact: true }).click()
  await page.getByLabel('to be').fill('3 '.repeat(MEGABYTE / 2))
  await expect(page.getByLabel('to be')).toHaveAccessibleDescription(/the limit is 200 characters/)
  await expect(page.locator('main .notice')).toContainText('too long for a link')
  await page.getByLabel('to be').fill('3 kHz')
  await expect(page.locator('[data-found]').first()).toBeVisible()
  await expect(page).toHaveURL(/want=peak:3_kHz/)
})

test('a book in the search finds nothing', async ({ page }) => {
  await open(page)
  await page.getByRole('searchbox').fill('pickup lead '.repeat(MEGABYTE / 12))
  await expect(page.locator('.count').first()).toContainText('Nothing')
  expect(page.url().length).toBeLessThan(200)
  await page.getByRole('searchbox').fill('levels')
  await expect(page.locator('.hits li').first()).toContainText('Levels')
})

test('a screen that was kept with too long a link is not at hand', async ({ page }) => {
  const visit = (calculator: string, more: string) => ({ calculator, hash: `#1/${calculator}/load_r=${more}` })
  const visits = [visit('pickup', 'x'.repeat(MEGABYTE)), visit('source-load', '20k')]
  await page.addInitScript(text => localStorage.setItem('stageohm.recent', text), JSON.stringify(visits))
  await open(page)
  await expect(page.locator('.at-hand a')).toHaveText(['Source into load'])
})
