// The drawer of the stage: gear is added, changed, moved between shows, and fills calculators.

import { readFileSync } from 'node:fs'
import type { Locator, Page } from '@playwright/test'
import type { Gear, Show } from '../../www/generated/contract'
import { usersOf } from '../../www/src/stage/gear/users'
import { answer } from './engine'
import { expect, expectAnswer, field, input, open, setting, test } from './page'

const EXAMPLE = 'crate/examples/show.json'

test.use({ viewport: { width: 360, height: 740 } })

async function add(page: Page, name: string): Promise<Locator> {
  await page.getByLabel('Add a typical item').selectOption({ label: name })
  await page.getByRole('button', { name: 'Add', exact: true }).click()
  return page.locator('.gear-list > li', { has: page.locator('details[open]') })
}

async function take(page: Page, name: string, content: string | Buffer): Promise<void> {
  await page
    .locator('.move-gear input[type=file]')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(content) })
}

/** The gear as the file of it has it. */
async function saved(page: Page): Promise<Gear[]> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save my gear to a file' }).click(),
  ])
  return (JSON.parse(readFileSync(await download.path(), 'utf8')) as Show).gear
}

/** Another screen of the page as it is, without loading it anew. */
async function goTo(page: Page, hash: string): Promise<void> {
  await page.evaluate(to => void (location.hash = to), hash)
}

test('added from a generic class, changed, duplicated, deleted, and all of it undone', async ({ page }) => {
  await open(page, '#1/stage/gear')
  await expect(page.locator('.gear')).toContainText('The drawer is empty.')
  const bass = await add(page, 'Bass, passive')
  await expect(bass.locator('summary').first()).toBeFocused()
  await bass.getByLabel('Name', { exact: true }).fill('Old bass')
  await bass.getByLabel('How many').fill('two, no 3')
  await bass.getByLabel('Pickup inductance').fill('4.2 H')
  await bass.getByLabel('How it was measured').fill('with a bridge at 120 Hz')
  await bass.getByText('More values').click()
  await bass.getByLabel('Tone capacitor').fill('')
  const [one] = await saved(page)
  expect(one).toMatchObject({ name: 'Old bass', kind: 'source', count: 3, measured: 'with a bridge at 120 Hz' })
  expect(one?.values).toMatchObject({ source: 'pickup', coil_l: '4.2 H' })
  expect(one?.values).not.toHaveProperty('tone_c')

  await page.getByRole('button', { name: 'Duplicate Old bass', exact: true }).click()
  await expect(page.locator('.gear-list > li bdi')).toHaveText(['Old bass', 'Old bass, copy'])
  await page.getByRole('button', { name: 'Delete Old bass, copy' }).click()
  await expect(page.locator('.gear-list > li bdi')).toHaveText(['Old bass'])
  await expect(page.locator('#gear')).toBeFocused()
  await page.locator('.done-line').getByRole('button', { name: 'Undo' }).click()
  await expect(page.locator('.gear-list > li bdi')).toHaveText(['Old bass', 'Old bass, copy'])
  // The bar of the show stands before all views.
  const undo = page.getByRole('button', { name: /^Undo/ }).first()
  while (await undo.isEnabled()) await undo.click()
  await expect(page.locator('.gear')).toContainText('The drawer is empty.')
})

test('asks what plays a part for its kind, and says what is wrong', async ({ page }) => {
  await open(page, '#1/stage/gear')
  const one = await add(page, 'Guitar, single coil')
  await expect(one.getByLabel('Pickup inductance')).toBeVisible()
  await one.getByLabel('Source', { exact: true }).selectOption({ label: 'microphone' })
  await expect(one.getByLabel('Pickup inductance')).toHaveCount(0)
  await one.getByLabel('Microphone resistance').fill('3 kg')
  await expect(one.locator('.problem')).toContainText('kg')
  await expect(one.getByLabel('Microphone resistance')).toHaveAttribute('aria-invalid', 'true')
  await one.locator('summary').first().click()
  await expect(one.locator('.problem')).toHaveCount(0)
  const card = page.locator('.gear-list > li')
  await expect(card.locator('summary').first()).toContainText('Check')
  await card.locator('summary').first().click()
  await card.getByLabel('Microphone resistance').fill('150')
  await expect(card.locator('summary').first()).not.toContainText('Check')
  // A lead has no more than a lead.
  const lead = await add(page, 'Other lead')
  await expect(lead.getByLabel('Length', { exact: true })).toBeVisible()
  await expect(lead.getByLabel('Source', { exact: true })).toHaveCount(0)
})

test('is written under the settings of the reader and kept under those of the show', async ({ page }) => {
  await open(page, '#1/stage/gear')
  await setting(page, '1,5 comma')
  await setting(page, 'feet')
  const lead = await add(page, 'Instrument lead, 3 m')
  await lead.getByLabel('Length', { exact: true }).fill('10')
  await lead.getByLabel('Lead capacitance per length').fill('95,5 pF/m')
  await expect(lead.getByLabel('Length', { exact: true })).toHaveValue('10')
  const [kept] = await saved(page)
  const echoes = answer('whole-line', { ...kept?.values }).fields
  expect(echoes['lead_length']?.value).toBeCloseTo(3.048, 9)
  expect(echoes['lead_c']?.value).toBeCloseTo(95.5e-12, 20)
  // Looked at again it reads as it would be typed.
  await lead.locator('summary').first().click()
  await expect(page.locator('.gear-list details[open]')).toHaveCount(0)
  await page.locator('.gear-list > li summary').first().click()
  await expect(page.getByLabel('Length', { exact: true })).toHaveValue(/^10( ft)?$/)
})

test('taken from the file of another show, once', async ({ page }) => {
  await open(page, '#1/stage/gear')
  const file = readFileSync(EXAMPLE)
  const { gear } = JSON.parse(file.toString()) as Show
  await take(page, 'show.json', file)
  await expect(page.locator('.done-line')).toContainText(`Taken from the file: ${gear.length}.`)
  await expect(page.locator('.gear-list > li')).toHaveCount(gear.length)
  expect((await saved(page)).map(({ id }) => id)).toEqual(gear.map(({ id }) => id))
  await take(page, 'show.json', file)
  await expect(page.locator('.done-line, .move-gear').first()).toContainText(`Already in the drawer: ${gear.length}.`)
  await expect(page.locator('.gear-list > li')).toHaveCount(gear.length)

  await take(page, 'notes.txt', 'no JSON {')
  await expect(page.locator('.move-gear .problem')).toHaveText('notes.txt is not the file of a show.')
  await take(page, 'list.json', '[1, 2]')
  await expect(page.locator('.move-gear .problem')).toContainText('this is not the file of a show')
  await take(page, 'damaged.json', JSON.stringify({ version: 1, gear: [{ id: 'x', name: 'Box', kind: 'teapot' }] }))
  await expect(page.locator('.move-gear .problem')).toContainText('teapot')
  await expect(page.locator('body')).toHaveJSProperty('scrollWidth', 360)
})

test('fills what a calculator asks, as one step', async ({ page }) => {
  await open(page, '#1/stage/gear')
  await take(page, 'show.json', readFileSync(EXAMPLE))
  await expect(page.locator('.gear-list > li').first()).toBeVisible()
  await goTo(page, '#1/pickup')
  const offer = field(page, 'lead_length').getByRole('combobox', { name: 'Lead length: from gear' })
  await offer.selectOption({ label: 'Instrument lead, 6 m' })
  await expectAnswer(page, answer('pickup', { lead_length: '6 m', lead_c: '110 pF' }))
  await expect(offer.locator('option:checked')).toHaveText('Instrument lead, 6 m')
  // What was changed since is no longer that lead.
  await input(page, 'lead_c').fill('200 pF')
  await expect(offer.locator('option:checked')).toHaveText('from gear')
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  await expectAnswer(page, answer('pickup', {}))
  await field(page, 'coil_l').locator('.from-gear').selectOption({ label: 'Bass, passive' })
  await expect(input(page, 'coil_l')).toHaveValue('5 H')
  await expect(input(page, 'coil_r')).toHaveValue('9k')
  // The input of a console is what a source is loaded with elsewhere.
  await goTo(page, '#1/source-load')
  await field(page, 'load_r').locator('.from-gear').selectOption({ label: 'Stage box input' })
  await expect(input(page, 'load_r')).toHaveValue('2.2k')
})

test('is offered to calculators after the page was loaded anew', async ({ page }) => {
  await open(page, '#1/stage/gear')
  await take(page, 'show.json', readFileSync(EXAMPLE))
  await expect(page.locator('.gear-list > li').first()).toBeVisible()
  // It is kept as soon as the list of shows has it.
  await page.getByRole('button', { name: 'Show', exact: true }).click()
  await expect(page.locator('[data-show]')).toHaveCount(1)
  await goTo(page, '#1/pickup')
  await page.reload()
  const offer = field(page, 'lead_length').getByRole('combobox', { name: 'Lead length: from gear' })
  await offer.selectOption({ label: 'Instrument lead, 6 m' })
  await expect(input(page, 'lead_length')).toHaveValue('6 m')
  await expectAnswer(page, answer('pickup', { lead_length: '6 m', lead_c: '110 pF' }))
})

test('in short it has its units, typed or not', async ({ page }) => {
  await open(page, '#1/stage/gear')
  await take(page, 'show.json', readFileSync(EXAMPLE))
  const short = (name: string) => page.locator('.gear-list > li', { hasText: name }).locator('summary .hint')
  await expect(short('Keyboard output')).toContainText('Crest factor 12\u00a0dB')
  await expect(short('Instrument lead, 6 m')).toContainText('110 pF/m')
  await expect(short('Stage box input')).toContainText('2.2\u00a0kΩ')
})

test('a lead is the first one or the run, and a DI is what it is', async ({ page }) => {
  await open(page, '#1/stage/gear')
  await take(page, 'show.json', readFileSync(EXAMPLE))
  await expect(page.locator('.gear-list > li').first()).toBeVisible()
  await goTo(page, '#1/whole-line')
  await field(page, 'run_length').locator('.from-gear').selectOption({ label: 'Microphone lead, 10 m' })
  await expect(input(page, 'run_length')).toHaveValue('10 m')
  await expect(input(page, 'lead_length')).toHaveValue('5 m')
  await field(page, 'box').locator('.from-gear').selectOption({ label: 'Line isolator, 1:1' })
  await expectAnswer(
    page,
    answer('whole-line', {
      ...{ run_length: '10 m', run_c: '70 pF', box: 'passive', ground: 'lifted', ratio: '1:1', r1: '60', r2: '60' },
      ...{ magnetising: '20 H', core_loss: '100k', leakage: '5 mH', c1: '300p', largest: '+18 dBu' },
    }),
  )
  // A pad calculator has an input resistance of another meaning.
  await goTo(page, '#1/ground-loop')
  await expect(field(page, 'lead_length').locator('.from-gear')).toHaveCount(1)
  await expect(field(page, 'leakage').locator('.from-gear')).toHaveCount(0)
})

test('a lesson has none of it', async ({ page }) => {
  await open(page, '#1/stage/gear')
  await take(page, 'show.json', readFileSync(EXAMPLE))
  await expect(page.locator('.gear-list > li').first()).toBeVisible()
  await goTo(page, '#1/pickup')
  await expect(page.locator('.from-gear').first()).toBeVisible()
  await goTo(page, '#1/pickup?lesson')
  await expect(page.locator('html')).toHaveAttribute('data-lesson', '')
  await expect(page.locator('.field').first()).toBeVisible()
  await expect(page.locator('.from-gear')).toHaveCount(0)
})

test('the lines that use gear are named as one calls them', () => {
  const show = JSON.parse(readFileSync(EXAMPLE, 'utf8')) as Show
  const bare = show.lines.filter(({ pad }) => pad === 'pad-20')
  expect(bare.length).toBeGreaterThan(0)
  expect(usersOf(show, 'pad-20')).toEqual(bare.map(({ channel, name }) => `${channel} ${name}`))
  expect(usersOf(show, 'guitar').length).toBeGreaterThan(0)
  expect(usersOf(show, 'nothing')).toEqual([])
})
