// A question asked backwards keeps its meaning, whatever the settings of whoever
// wrote it and of whoever reads it.

import type { Page } from '@playwright/test'
import type { Settings } from '../../www/generated/contract'
import { answer } from './engine'
import { expect, input, open, setting, test } from './page'
import { allForms } from './places'

type Choice = Omit<Settings, 'language'>

const POINT: Choice = { decimal: 'point', length: 'metre', mains: '50' }
const COMMA: Choice = { ...POINT, decimal: 'comma' }
const FEET: Choice = { ...POINT, length: 'foot' }
const OTHER: Choice = { decimal: 'comma', length: 'foot', mains: '60' }

const LONGEST = '#1/lead-length/?want=longest_loss:20&field=limit'

/** A reader who chose these settings some other day. */
async function choose(page: Page, settings: Choice): Promise<void> {
  const kept = JSON.stringify(settings)
  await page.addInitScript(kept => {
    if (localStorage.getItem('stageohm.preferences') === null) localStorage.setItem('stageohm.preferences', kept)
  }, kept)
}

/** What the native engine finds, asked under the settings of links. */
function expected(calculator: string, reading: string, value: string, field: string): number[] {
  const { backwards } = answer(calculator, {}, { backwards: { reading, value, field } })
  const found = backwards?.found.map(({ value }) => value) ?? []
  expect(found).not.toHaveLength(0)
  return found
}

/** The page finds these values, to the digits that are written. */
async function expectFound(page: Page, values: readonly number[]): Promise<void> {
  await expect(page.locator('.found')).toHaveAttribute('aria-busy', 'false')
  await expect(page.locator('[data-found]')).toHaveCount(values.length)
  for (const [index, value] of values.entries()) {
    const near = async () =>
      Math.abs(Number(await page.locator('[data-found]').nth(index).getAttribute('data-found')) / value - 1)
    await expect.poll(near).toBeLessThan(1e-5)
  }
}

for (const [what, settings, text] of [
  ['metres', POINT, '20'],
  ['feet', FEET, '65.6168 ft'],
  ['feet with a comma', OTHER, '65,6168 ft'],
] as const) {
  test(`a length in a link without settings, read in ${what}`, async ({ page }) => {
    await choose(page, settings)
    await open(page, LONGEST)
    await expect(page.getByLabel('to be')).toHaveValue(text)
    await expectFound(page, expected('lead-length', 'longest_loss', '20 m', 'limit'))
  })
}

test('a length in a link that names feet, read in metres', async ({ page }) => {
  await open(page, '#1/lead-length?in=foot&want=longest_loss:20&field=limit')
  await expect(page.getByLabel('to be')).toHaveValue('6.096 m')
  await expectFound(page, expected('lead-length', 'longest_loss', '20 ft', 'limit'))
})

test('a frequency in a link without settings, read with a comma', async ({ page }) => {
  await choose(page, COMMA)
  await open(page, '#1/pickup?want=peak:3.125_kHz&field=lead_length')
  await expect(page.getByLabel('to be')).toHaveValue('3,125 kHz')
  await expectFound(page, expected('pickup', 'peak', '3.125 kHz', 'lead_length'))
})

test('what means the same to all, and what means nothing, stays as it was written', async ({ page }) => {
  await choose(page, OTHER)
  for (const [reading, text] of [
    ['peak', '3k125'],
    ['peak', 'high'],
    ['total_c', '470 pF'],
  ]) {
    await open(page, `#1/pickup?want=${reading}:${text?.replace(' ', '_')}&field=lead_length`)
    await expect(page.getByLabel('to be')).toHaveValue(text ?? '')
  }
})

test('beside values that have no answer yet', async ({ page }) => {
  await choose(page, FEET)
  await open(page, '#1/lead-length/lead_r=12_pigs?want=longest_loss:20&field=limit')
  await input(page, 'lead_r').fill('')
  await input(page, 'coil_l').fill('2.5')
  await expect(page).toHaveURL(/want=longest_loss:65\.6168_ft/)
})

for (const form of allForms) {
  test(`a wanted value that stands while settings change, ${form}`, async ({ page }) => {
    const found = expected('lead-length', 'longest_loss', '20 m', 'limit')
    await open(page, LONGEST, form)
    await expectFound(page, found)
    await setting(page, 'feet')
    await expect(page.getByLabel('to be')).toHaveValue('65.6168 ft')
    await expectFound(page, found)
    // Whoever reads with a comma sees one.
    await setting(page, '1,5 comma')
    await expect(page.getByLabel('to be')).toHaveValue('65,6168 ft')
    await expectFound(page, found)
    await expect(page).toHaveURL(/in=comma,foot&want=longest_loss:65,6168_ft&field=limit$/)
    await page.evaluate(() => location.reload())
    await expect(page.getByLabel('to be')).toHaveValue('65,6168 ft')
    await expectFound(page, found)
    // A length that says its unit is as long in metres.
    await setting(page, 'metres')
    await expect(page.getByLabel('to be')).toHaveValue('65,6168 ft')
    await expectFound(page, found)
  })
}

test('settings that change in another tab', async ({ page, context }) => {
  await open(page, '#1/lead-length/lead_length=5?want=longest_loss:20&field=limit')
  const found = expected('lead-length', 'longest_loss', '20 m', 'limit')
  const second = await context.newPage()
  await open(second)
  await setting(second, 'feet')
  await expect(page.getByLabel('to be')).toHaveValue('65.6168 ft')
  await expect(input(page, 'lead_length')).toHaveValue('16.4042 ft')
  await expectFound(page, found)
})

test('a lesson shows what its author wrote', async ({ page }) => {
  await choose(page, OTHER)
  await open(page, `${LONGEST}&lesson`)
  await expect(page.getByLabel('to be')).toHaveValue('20')
  await expectFound(page, expected('lead-length', 'longest_loss', '20 m', 'limit'))
})

test('from every reader to one who chose all otherwise', async ({ browser }) => {
  const all = [POINT, COMMA, FEET, OTHER]
  for (const [index, writer] of all.entries()) {
    const reader = all[all.length - 1 - index] ?? POINT
    const bare = writer.decimal === 'comma' ? '25,125' : '25.125'
    const found = expected('lead-length', 'longest_loss', `25.125 ${writer.length === 'foot' ? 'ft' : 'm'}`, 'limit')
    const writing = await browser.newPage()
    await choose(writing, writer)
    await open(writing, '#1/lead-length')
    await writing
      .getByRole('button', { name: /^Solve for … from Longest lead within/ })
      .first()
      .click()
    await writing.getByLabel('to be').fill(bare)
    await writing.getByLabel('by changing').selectOption('limit')
    await expectFound(writing, found)
    // The address follows a little later, and had the first text before.
    await expect(writing).toHaveURL(/want=longest_loss:25[.,]125&field=limit/)
    const link = writing.url()
    await writing.close()

    const reading = await browser.newPage()
    await choose(reading, reader)
    await reading.goto(link)
    await expectFound(reading, found)
    await reading.close()
  }
})
