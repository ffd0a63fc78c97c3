// On paper: a sheet of as few pages as can be read, in the colours of paper, with everything on it.

import { PDFDocument } from 'pdf-lib'
import type { Page } from '@playwright/test'
import { answer, descriptions, headline } from './engine'
import { expect, expectAnswer, open, setting, test } from './page'

/** On how many pages at most, where the working fills more than what is left of the first. */
const LONG: Readonly<Record<string, number>> = {
  'lead-length': 2,
  'level-chain': 2,
  'noise-floor': 2,
  'ground-loop': 2,
  'whole-line': 2,
}
/** Nobody reads smaller letters on paper, in points. */
const LEAST = 8

for (const { id, title } of descriptions()) {
  test(title, async ({ page }) => {
    await open(page, `#1/${id}`)
    await setting(page, 'stage')
    await expectAnswer(page, answer(id))
    for (const format of ['A4', 'Letter']) {
      expect(await pages(page, format), format).toBeLessThanOrEqual(LONG[id] ?? 1)
    }
    // The screen is as it was.
    await expect(page.locator('#paper')).toHaveCount(0)
    await expectAnswer(page, answer(id))

    const { report } = answer(id, {}, { working: true })
    const sheet = await ask(page)
    for (const [index, { name, text }] of headline(answer(id)).entries()) {
      // What an answer is for stands in place of its name.
      await expect(sheet).toContainText((index === 0 ? report?.subject : null) ?? name)
      await expect(sheet).toContainText(text)
    }
    for (const text of [...(report?.cautions ?? []), ...(report?.warnings ?? []), ...(report?.sources ?? [])]) {
      await expect(sheet).toContainText(text)
    }
    const points = await sheet.evaluate(paper => (parseFloat(getComputedStyle(paper).fontSize) / 96) * 72)
    expect(points).toBeGreaterThanOrEqual(LEAST - 0.01)
    const told = report?.working.filter(({ chain }) => !chain) ?? []
    await expect(sheet.locator('.written li')).toHaveCount(told.length)
    await expect(sheet.locator('figure:not(.rig) svg')).toHaveCount(report?.plots.length ?? 0)
    await expect(sheet.locator('input, select, button')).toHaveCount(0)
    await expect(sheet).toContainText(page.url())
    await expect(page.locator('body')).toHaveCSS('background-color', 'rgba(0, 0, 0, 0)')
    await expect(page.locator('html')).toHaveCSS('background-color', 'rgb(255, 255, 255)')
    await expect(page.getByRole('heading', { name: title })).toBeVisible()
    await expect(page.locator('#page')).toBeHidden()
  })
}

test('the walk through the parts is printed where it is unfolded', async ({ page }) => {
  await open(page, '#1/lead-length')
  const working = answer('lead-length', {}, { working: true }).report?.working ?? []
  const folded = working.filter(({ chain }) => chain).length
  expect(folded).toBeGreaterThan(3)
  const sheet = await ask(page)
  await expect(sheet).toContainText(`${folded} more steps`)
  await page.evaluate(() => dispatchEvent(new Event('afterprint')))
  await page.emulateMedia({ media: 'screen' })
  await page.locator('.working > summary').click()
  await page.locator('.working .chain > summary').first().click()
  await ask(page)
  await expect(sheet.locator('.written li')).toHaveCount(working.length)
  await expect(sheet).not.toContainText('more steps')
})

test('what is held is compared on paper too', async ({ page }) => {
  await open(page, '#1/pickup/load_r=1M/load_r=10k')
  await expectAnswer(page, answer('pickup', { load_r: '1M' }))
  expect(await pages(page)).toBe(1)
  const sheet = await ask(page)
  const { text } = headline(answer('pickup', { load_r: '10k' }))[2] ?? {}
  await expect(sheet.locator('table')).toContainText(text ?? '')
})

test('a loss beside a gain says on paper that it is one', async ({ page }) => {
  await open(page, '#1/pickup/load_r=1M/load_r=10k')
  await expectAnswer(page, answer('pickup', { load_r: '1M' }))
  const sheet = await ask(page)
  const row = sheet.locator('table tr').filter({ hasText: 'Treble gained at' })
  await expect(row.locator('td').first()).not.toContainText('lost')
  await expect(row.locator('td').last()).toHaveText(/^[\d.]+\u00a0dB \(Treble lost at/)
})

test('why it is so is on paper, with the symbols of its formula beside the values', async ({ page }) => {
  await open(page, '#1/pickup')
  const { because } = headline(answer('pickup'))[0] ?? {}
  const sheet = await ask(page)
  await expect(sheet).toContainText(`${because?.text}: ${because?.formula}`)
  await expect(sheet.locator('.pairs').first()).toContainText('Pickup inductance (L_P)')
})

test('a band and a question backwards are on paper too', async ({ page }) => {
  await open(page, '#1/pickup?want=peak:4_kHz&field=coil_l&tol')
  const found = page.locator('[data-found]').first()
  await expect(found).toContainText('4 kHz')
  await expect(page.locator('.drawn')).toHaveAttribute('data-spread', 'true', { timeout: 60_000 })
  expect(await pages(page)).toBeLessThanOrEqual(2)
  const usual = await page.locator('.headline .spread bdi').first().textContent()
  const value = await found.locator('strong').textContent()
  const sheet = await ask(page)
  await expect(sheet).toContainText(usual ?? 'no band')
  await expect(sheet.locator('figure .band')).not.toHaveCount(0)
  await expect(sheet).toContainText(`I want Resonance to be 4 kHz by changing Pickup inductance: ${value}`)
})

test('what is bad input on the screen is the last good answer on paper', async ({ page }) => {
  await open(page, '#1/pickup')
  await expectAnswer(page, answer('pickup'))
  await page.locator('[data-field="load_r"] input[type=text]').fill('12 pigs')
  await expect(page.locator('[data-problem]')).toHaveCount(1)
  const sheet = await ask(page)
  await expect(sheet).toContainText(headline(answer('pickup'))[0]?.text ?? '')
  await expect(sheet).not.toContainText('pigs')
})

test('what is looked up is printed as it stands', async ({ page }) => {
  await open(page, '#1/look-up/adaptor-two-outputs')
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
  expect(await pages(page)).toBe(1)
  await page.emulateMedia({ media: 'print' })
  await expect(page.locator('.wiring svg')).toBeVisible()
  await expect(page.getByRole('button', { name: 'Print' })).toBeHidden()
})

/** How many pages a printer makes of the screen; before it is made to look like paper. */
async function pages(page: Page, format = 'A4') {
  return (await PDFDocument.load(await page.pdf({ format }))).getPageCount()
}

async function ask(page: Page) {
  await page.emulateMedia({ media: 'print' })
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')))
  return page.locator('#paper')
}
