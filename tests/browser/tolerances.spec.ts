// Part tolerances: the band on the plot, the ranges beside the readings, the
// link that brings them back, and nothing that holds up what is typed.

import type { Page } from '@playwright/test'
import { answer } from './engine'
import { expect, open, test } from './page'
import { allForms } from './places'

// The slowest of them takes seconds, and some more on a busy machine.
const DRAWN = { timeout: 60_000 }

for (const form of allForms) {
  test(`turned on, changed and turned off, ${form}`, async ({ page }) => {
    test.slow()
    await open(page, '#1/pickup', form)
    await expect(page.locator('.band, .worst, .spread')).toHaveCount(0)
    await page.getByText('Part tolerances').click()
    await page.getByLabel('Show what the tolerances of parts do').check()
    await drawn(page)
    await expect(page).toHaveURL(/\?tol=usual$/)

    await page.getByLabel('Rigs to draw').selectOption('500')
    await page.getByLabel('Capacitors').selectOption('±1 % (F)')
    const better = answer('pickup', {}, { tolerances: { percent: { capacitor: 1 }, draws: 500 } }).tolerances
    await expectSpread(page, better)
    await expect(page).toHaveURL(/\?tol=capacitor:1&draws=500$/)
    const second = await page.context().newPage()
    await second.goto(page.url())
    await expectSpread(second, better)
    expect(await ranges(second)).toEqual(await ranges(page))

    await page.getByLabel('All parts').selectOption('±10 % (K)')
    await expect(page).toHaveURL(/\?tol=10&draws=500$/)
    await page.getByLabel('Show what the tolerances of parts do').uncheck()
    await expect(page.locator('.band, .worst, .spread')).toHaveCount(0)
    await expect(page).not.toHaveURL(/tol=/)
  })
}

test('the band is told in words and in numbers', async ({ page }) => {
  test.slow()
  const { plots } = answer('pickup', {}, { tolerances: { draws: 100 } }).tolerances ?? { plots: [] }
  await open(page, '#1/pickup?tol=usual&draws=100')
  await drawn(page)
  const summary = plots[0]?.summary ?? ''
  expect(summary).toContain('nine in ten')
  await expect(page.locator('.spread-key .summary')).toHaveText(summary)
  await expect(page.getByRole('img', { name: summary })).toHaveCount(1)
  await page.getByText('Numbers', { exact: true }).click()
  await expect(page.getByRole('columnheader', { name: 'worst case found' })).toBeVisible()
  await expect(page.getByRole('row', { name: /^20 kHz/ })).toContainText(/dB to −\d/)
  await page.getByRole('slider', { name: /^Read/ }).focus()
  await page.keyboard.press('PageUp')
  await expect(page.locator('.under-finger')).toContainText('5 to 95 % of rigs')
})

test('typing goes on while rigs are drawn, and only the newest band is shown', async ({ page }) => {
  test.slow()
  await open(page, '#1/noise-floor?tol=usual&draws=10000')
  await expect(page.locator('.drawn')).toHaveAttribute('aria-busy', 'true')
  // Rigs are being drawn by now, and would be for many seconds.
  await page.waitForTimeout(500)
  const input = page.locator('[data-field="lead_length"] input[type=text]')
  for (const text of ['7 m', '8 m']) {
    await input.fill(text)
    const first = answer('noise-floor', { lead_length: text }).report?.headline[0]
    await expect(page.locator(`.answer [data-reading="${first?.id}"] bdi`).first()).toHaveText(first?.text ?? '')
    await expect(page.locator('.drawn')).toHaveAttribute('aria-busy', 'true')
    await expect(page.locator('.band')).toHaveCount(0)
  }
  // Asked backwards, an answer comes before the band.
  await page.locator('.answer .ask').first().click()
  await page.getByLabel('to be').fill('90 dB')
  await page.getByLabel('by changing').selectOption('lead_length')
  await expect(page.locator('.found')).toContainText(/gives|No value/, DRAWN)
  await expect(page.locator('.drawn')).toHaveAttribute('aria-busy', 'true')

  await page.locator('.tolerances').evaluate(details => details.setAttribute('open', ''))
  await page.getByLabel('Rigs to draw').selectOption('500')
  await expectSpread(page, answer('noise-floor', { lead_length: '8 m' }, { tolerances: { draws: 500 } }).tolerances)
})

test('no choice is blank, whatever a link asks for', async ({ page }) => {
  for (const [tol, all, resistors] of [
    ['7', '±7 %', '±7 %'],
    ['7,resistor:0.5', '±7 %', '±0.5 %'],
    ['resistor:7', 'usual', '±7 %'],
  ] as const) {
    await open(page, `#1/source-load?tol=${tol}&draws=100`)
    await drawn(page)
    await expect(page.getByLabel('All parts').locator('option:checked')).toContainText(all)
    await expect(page.getByLabel('Resistors').locator('option:checked')).toContainText(resistors)
    const chosen = page
      .locator('.tolerances select')
      .evaluateAll(all => all.map(select => (select as HTMLSelectElement).selectedIndex))
    expect(await chosen).not.toContain(-1)
  }
})

test('what a link asks for wrongly is explained', async ({ page }) => {
  await open(page, '#1/pickup?tol=90&draws=100')
  await expect(page.locator('.drawn')).toContainText('A tolerance is 0 to 50')
  await open(page, '#1/pickup?tol=usual,nonsense')
  await expect(page.getByText('tol=nonsense')).toBeVisible()
})

test('a calculator without parts offers none', async ({ page }) => {
  await open(page, '#1/levels')
  await expect(page.locator('.answer [data-reading]').first()).toBeVisible()
  await expect(page.getByText('Part tolerances')).toHaveCount(0)
})

async function drawn(page: Page) {
  await expect(page.locator('.drawn')).toHaveAttribute('data-spread', 'true', DRAWN)
}

/** Every headline has its two ranges, in the words of the native engine. */
async function expectSpread(page: Page, spread: ReturnType<typeof answer>['tolerances']) {
  const shown = page.locator('.answer [data-reading]')
  for (const { id, text, worst } of spread?.readings ?? []) {
    const reading = shown.and(page.locator(`[data-reading="${id}"]`))
    if (text === '' || (await reading.count()) === 0) continue
    await expect(reading.locator('.spread bdi').first()).toHaveText(text, DRAWN)
    await expect(reading.locator('.spread bdi').last()).toHaveText(worst)
  }
  await drawn(page)
  await expect(page.locator('.band[data-range]').first()).toBeVisible()
  await expect(page.locator('.worst[data-range]').first()).toBeVisible()
}

function ranges(page: Page): Promise<string[]> {
  return page.locator('[data-range]').evaluateAll(paths => paths.map(path => path.getAttribute('d') ?? ''))
}
