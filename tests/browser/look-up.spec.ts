// One search over everything, and the screens of what is looked up.

import type { Page } from '@playwright/test'
import { expect, open, test } from './page'

const search = (page: Page) => page.getByLabel('What do you want to know?')
const titles = (page: Page) => page.locator('.hits .title')

test('one search finds calculators, entries and terms', async ({ page }) => {
  await open(page)
  await search(page).fill('ground loop')
  await expect(titles(page).filter({ hasText: /^Ground loop$/ })).toHaveCount(2)
  await expect(page.locator('.hits .kind').first()).toHaveText('Calculator')
  await expect(page.locator('.count[role=status]')).toContainText(/\d+ of \d+/)
})

for (const [typed, found] of [
  ['jack lead', 'Jack lead, unbalanced'],
  ['JACK LEAD', 'Jack lead, unbalanced'],
  ['mic', 'XLR lead'],
  ['D.I.', 'DI box (direct box)'],
  ['di box', 'DI box or straight in'],
  ['48 V', 'Phantom power'],
  ['4k7', 'Value code'],
  ['ímpédance', 'Source impedances'],
  ['apacit', 'Capacitance of instrument leads'],
  ['vocals vanish', 'TRS plug, stereo, in a balanced input'],
  ['trs', 'TRS jack, 6.35 mm'],
] as const) {
  test(`“${typed}” finds ${found}`, async ({ page }) => {
    await open(page)
    await search(page).fill(typed)
    await expect(titles(page).filter({ hasText: found }).first()).toBeVisible()
  })
}

test('what is named so comes before what only speaks of it', async ({ page }) => {
  await open(page)
  await search(page).fill('dBu')
  await expect(titles(page).nth(0)).toHaveText(/^(Levels|dBu)$/)
  await search(page).fill('d.i.')
  await expect(titles(page).nth(0)).toHaveText('DI box or straight in')
  await expect(titles(page).nth(1)).toHaveText('DI box (direct box)')
})

test('what is not here says so, and is one step from everything', async ({ page }) => {
  await open(page)
  await search(page).fill('theremin tuning')
  await expect(page.getByText('No exact match; closest:')).toBeVisible()
  await search(page).fill('')
  await expect(page.getByRole('heading', { name: 'Look up' })).toBeVisible()
  await expect(page).not.toHaveURL(/find/)
})

test('enter opens the first, and back returns to what was found', async ({ page }) => {
  await open(page)
  await search(page).fill('xlr lead')
  await search(page).press('Enter')
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('XLR lead')
  await expect(page).toHaveURL(/#1\/look-up\/lead-xlr$/)
  await page.goBack()
  await expect(search(page)).toHaveValue('xlr lead')
  await expect(titles(page).first()).toHaveText('XLR lead')
  await page.getByRole('link', { name: 'Stageohm' }).click()
  await expect(search(page)).toHaveValue('')
})

test('every entry opens, from the one file and without a network', async ({ page }) => {
  await open(page, '', 'one file')
  const links = await page
    .locator('.look-ups a')
    .evaluateAll(all => all.map(a => [a.getAttribute('href'), a.textContent]))
  expect(links.length).toBeGreaterThan(100)
  for (const [href, title] of links) {
    await page.evaluate(href => (location.hash = href ?? ''), href)
    await expect(page.getByRole('heading', { level: 1 })).toHaveText(title ?? '')
    await expect(page.locator('.sources li').first()).toBeVisible()
  }
})

test('a wiring is drawn, and told in words', async ({ page }) => {
  await open(page, '#1/look-up/adaptor-jack-xlr')
  await expect(page.getByRole('img', { name: 'Wiring: TS jack to XLR' })).toBeVisible()
  await expect(page.locator('.wiring path.conductor')).toHaveCount(3)
  await expect(page.locator('.wiring li')).toHaveText([
    'tip at the output to pin 2 at the input: signal',
    'sleeve at the output to pin 1 at the input: shield and return',
    'pin 3 at the input to pin 1 at the input: joined in the plug',
  ])
  await expect(page.locator('[data-caution]')).toContainText('phantom')
})

test('plugs are shown from where one solders, and the legs have signs', async ({ page }) => {
  await open(page, '#1/look-up/lead-xlr')
  const faces = page.locator('.faces .face')
  await expect(faces).toHaveCount(2)
  for (const face of await faces.all()) await expect(face.locator('figcaption')).toContainText('from the solder side')
  await expect(faces.nth(1).locator('svg .sign')).toHaveText(['+', '−'])
  await expect(page.locator('.wiring .role')).toHaveText([/^\+ /, /^− /, /^shield/])
  const stroke = (leg: string) =>
    page.locator(`.wiring .conductor[data-leg=${leg}]`).evaluate(path => getComputedStyle(path).strokeDasharray)
  expect(await stroke('hot')).not.toBe(await stroke('cold'))
})

test('the shield that is open at one end comes with the caution of the earth', async ({ page }) => {
  await open(page, '#1/look-up/adaptor-shield-one-end')
  await expect(page.locator('[data-caution]').first()).toContainText('Never lift, cut or bypass a safety earth')
})

test('a link fills a calculator in', async ({ page }) => {
  await open(page, '#1/look-up/term-dbu')
  await page.getByRole('link', { name: 'Calculator: Levels' }).click()
  await expect(page.locator('[data-field="level"] input[type=text]')).toHaveValue(/^4/)
})

test('numbers follow the settings', async ({ page }) => {
  await open(page, '#1/look-up/term-dbu')
  await expect(page.locator('.said')).toContainText('1.23')
  await page.getByRole('button', { name: 'Settings' }).click()
  await page.getByRole('radio', { name: '1,5 comma' }).check({ force: true })
  await expect(page.locator('.said')).toContainText('1,23')
})

test('a link to an entry that is not there says so', async ({ page }) => {
  await open(page, '#1/look-up/pigs')
  await expect(page.getByRole('alert')).toContainText('pigs')
  await expect(search(page)).toBeVisible()
})

test.describe('on a phone', () => {
  test.use({ viewport: { width: 360, height: 740 } })

  test('no words of a drawing lie on each other or beyond its edge', async ({ page }) => {
    await open(page)
    await expect(page.locator('.look-ups a').first()).toBeAttached()
    const links = await page
      .locator('.look-ups a')
      .evaluateAll(all => all.map(a => ({ href: a.getAttribute('href') ?? '', name: a.textContent })))
    let drawn = 0
    for (const { href, name } of links.filter(({ href }) => /\/(lead|adaptor)-/.test(href))) {
      await open(page, href)
      await expect(page.getByRole('heading', { level: 1 })).toHaveText(name)
      const faults = await page.locator('.wiring svg, .face svg').evaluateAll(pictures =>
        pictures.flatMap(picture => {
          const edge = picture.getBoundingClientRect()
          const words = [...picture.querySelectorAll('text')].map(text => ({
            text: text.textContent,
            box: text.getBoundingClientRect(),
          }))
          const outside = words.filter(({ box }) => box.left < edge.left - 1 || box.right > edge.right + 1)
          // Boxes have room above and below the letters.
          const over = (a: DOMRect, b: DOMRect) =>
            a.left < b.right && b.left < a.right && a.top + 3 < b.bottom - 3 && b.top + 3 < a.bottom - 3
          const crossed = words.filter(({ box }, at) => words.some((other, i) => i < at && over(box, other.box)))
          return [...outside, ...crossed].map(({ text }) => text)
        }),
      )
      expect(faults, href).toEqual([])
      drawn += await page.locator('.wiring svg').count()
    }
    expect(drawn).toBe(18)
  })
})
