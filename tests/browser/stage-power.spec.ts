// Circuits, equipment and links of a show, edited by hand.

import AxeBuilder from '@axe-core/playwright'
import type { Locator, Page } from '@playwright/test'
import { expect, open, setting, test } from './page'
import { inventedShow, openShow, type ShowFile } from './stage-open'

const row = (page: Page, list: string, place: number): Locator =>
  page.locator(`[data-list="${list}"] [data-row]`).nth(place)

async function add(page: Page, button: string, name: string): Promise<void> {
  await page.getByRole('button', { name: button }).click()
  await expect(page.locator('.power input:focus')).toHaveCount(1)
  await page.keyboard.type(name)
}

async function addAll(page: Page): Promise<void> {
  await open(page, '#1/stage/power')
  await add(page, 'Add a circuit', 'Console')
  await add(page, 'Add a circuit', 'Stage left')
  await add(page, 'Add equipment', 'Desk')
  await add(page, 'Add equipment', 'Keyboard')
  await row(page, 'equipment', 0).getByLabel('Circuit').selectOption({ label: 'Console' })
  await row(page, 'equipment', 1).getByLabel('Circuit').selectOption({ label: 'Stage left' })
  await add(page, 'Add a lead or metalwork', 'Network to the desk')
  await row(page, 'links', 0).getByLabel('Kind').selectOption({ label: 'network lead' })
  await row(page, 'links', 0).getByLabel('From').selectOption({ label: 'Keyboard' })
  await row(page, 'links', 0).getByLabel('To', { exact: true }).selectOption({ label: 'Desk' })
}

for (const [screen, width] of [
  ['phone', 360],
  ['wide screen', 1440],
] as const) {
  test(`rows are added, point to each other, and are deleted with what they are used by: ${screen}`, async ({
    page,
  }) => {
    await page.setViewportSize({ width, height: 800 })
    await addAll(page)
    await expect(page.locator('body')).toHaveJSProperty('scrollWidth', width)
    await page.getByRole('button', { name: 'Delete Stage left' }).click()
    await expect(page.getByRole('alert')).toContainText('Stage left is used by: Keyboard.')
    await page.getByRole('button', { name: 'Keep it' }).click()
    await expect(page.locator('[data-list="power"] [data-row]')).toHaveCount(2)
    await page.getByRole('button', { name: 'Delete Desk' }).click()
    await expect(page.getByRole('alert')).toContainText('Desk is used by: Network to the desk.')
    await page.keyboard.press('Escape')
    await expect(page.getByRole('alert')).toHaveCount(0)
    await page.getByRole('button', { name: 'Delete Stage left' }).click()
    await page.getByRole('button', { name: 'Delete all the same' }).click()
    await expect(page.locator('[data-list="power"] [data-row]')).toHaveCount(1)
    await expect(page.locator('#list-power')).toBeFocused()
    // What it was stays chosen, and is told.
    await expect(row(page, 'equipment', 1).locator('.problem')).toContainText('there is no circuit')
    await page.locator('[data-list="power"] .done-line').getByRole('button', { name: 'Undo' }).click()
    await expect(page.locator('[data-list="power"] [data-row]')).toHaveCount(2)
    await expect(row(page, 'equipment', 1).locator('.problem')).toHaveCount(0)
    await page.getByRole('button', { name: 'Duplicate Network to the desk' }).click()
    await expect(page.locator('[data-list="links"] [data-row]')).toHaveCount(2)
    await expect(row(page, 'links', 1).getByLabel('Name')).toHaveValue('Network to the desk, copy')
  })
}

test('cautions stand there, and so much that it is a fault stops', async ({ page }) => {
  await open(page, '#1/stage/power')
  await expect(page.locator('.power [data-caution]').first()).toContainText('Never lift, cut or bypass a safety earth')
  await expect(page.locator('[data-list="power"] [data-caution]')).toContainText('licensed electrician')
  await add(page, 'Add a circuit', 'Stage left')
  const difference = row(page, 'power', 0).getByLabel('Earth difference')
  const stop = row(page, 'power', 0).getByRole('alert')
  for (const [text, stops] of [
    ['49 V', false],
    ['60 V', true],
    ['30 mV', false],
    ['-230 V', true],
    ['5 kV', true],
    ['lots', false],
  ] as const) {
    await difference.fill(text)
    await expect(stop, text).toHaveCount(stops ? 1 : 0)
  }
  await expect(row(page, 'power', 0).locator('.problem')).toContainText('“lots” is not a number')
  await expect(difference).toHaveAttribute('aria-invalid', 'true')
  await difference.fill('')
  await expect(row(page, 'power', 0).locator('.problem')).toHaveCount(0)
})

test('quantities are those of the reader', async ({ page }) => {
  await open(page, '#1/stage/power')
  await setting(page, '1,5 comma')
  await add(page, 'Add equipment', 'Desk')
  const leakage = row(page, 'equipment', 0).getByLabel('Leakage')
  await leakage.fill('0,25 mA')
  await expect(leakage).toHaveValue('0,25 mA')
  await expect(row(page, 'equipment', 0).locator('.problem')).toHaveCount(0)
  await leakage.fill('0,25,3')
  await expect(row(page, 'equipment', 0).locator('.problem')).toHaveCount(1)
})

test('quantities of a file, which have a point, are written with the sign of the reader', async ({ page }) => {
  await openShow(page, inventedShow(), 'power')
  await setting(page, '1,5 comma')
  const box = row(page, 'equipment', 2)
  await expect(box.locator('summary')).toContainText('Maximum phantom supply 0,2 A')
  await expect(row(page, 'power', 1).locator('summary')).toContainText('Resistance of its earth path 0,15 ohm')
  await box.locator('summary').click()
  await expect(box.getByLabel('Maximum phantom supply')).toHaveValue('0,2 A')
  await setting(page, '1.5 point')
  await expect(box.getByLabel('Maximum phantom supply')).toHaveValue('0.2 A')
})

test('a number without a unit is asked about where volts or amperes are hardly meant', async ({ page }) => {
  await open(page, '#1/stage/power')
  await add(page, 'Add a circuit', 'Stage left')
  const circuit = row(page, 'power', 0)
  const difference = circuit.getByLabel('Earth difference')
  await expect(difference).toHaveAttribute('placeholder', 'e.g. 300 mV')
  await difference.fill('300')
  await expect(circuit.locator('.problem')).toContainText('300 V? For millivolts type 300 mV.')
  // Until it is answered it is the worse of the two.
  await expect(circuit.getByRole('alert')).toContainText('Stop here')
  await circuit.getByRole('button', { name: '300 mV' }).click()
  await expect(difference).toHaveValue('300 mV')
  await expect(circuit.locator('.problem')).toHaveCount(0)
  await expect(circuit.getByRole('alert')).toHaveCount(0)
  await difference.fill('12')
  await circuit.getByRole('button', { name: '12 V' }).click()
  await expect(difference).toHaveValue('12 V')
  await expect(circuit.locator('.problem')).toHaveCount(0)
  // So little may be meant.
  await difference.fill('0.03')
  await expect(circuit.locator('.problem')).toHaveCount(0)
  await add(page, 'Add equipment', 'Laptop')
  const laptop = row(page, 'equipment', 0)
  await laptop.getByLabel('Leakage').fill('0.25')
  await laptop.getByRole('button', { name: '0.25 mA' }).click()
  await expect(laptop.getByLabel('Leakage')).toHaveValue('0.25 mA')
  await expect(laptop.locator('.problem')).toHaveCount(0)
})

test('what is negative or out of range is marked, with why', async ({ page }) => {
  await open(page, '#1/stage/power')
  await add(page, 'Add a circuit', 'Stage left')
  await add(page, 'Add equipment', 'Desk')
  await add(page, 'Add a lead or metalwork', 'Rack')
  for (const [list, label, text, why] of [
    ['power', 'Earth difference', '-1e99', 'write a value from 0 V to 1 kV'],
    ['power', 'Resistance of its earth path', '-3', 'out of range'],
    ['equipment', 'Leakage', '-1 mA', 'write a value from 1 nA to 100 mA'],
    ['equipment', 'Pin-1 fault', '-2', 'write a value from 0 Ω to 1 kΩ'],
    ['equipment', 'Maximum phantom supply', '-5 mA', 'out of range'],
    ['links', 'Resistance of the shield', '1e9', 'out of range'],
  ] as const) {
    const input = row(page, list, 0).getByLabel(label)
    await input.fill(text)
    await expect(input, `${label} ${text}`).toHaveAttribute('aria-invalid', 'true')
    await expect(row(page, list, 0).locator('.problem')).toContainText(why)
    await input.fill('')
    await expect(row(page, list, 0).locator('.problem')).toHaveCount(0)
  }
})

/** A show of so many pieces of equipment and twice as many leads. */
function largeShow(count: number): ShowFile {
  const equipment = Array.from({ length: count }, (_, index) => ({ id: `e${index}`, name: `Piece ${index}` }))
  const links = Array.from({ length: 2 * count }, (_, index) => ({
    ...{ id: `l${index}`, name: `Lead ${index}` },
    ...{ from: `e${index % count}`, to: `e${(index + 1) % count}` },
  }))
  return { version: 1, name: 'Large', mains: '50', gear: [], power: [], equipment, links, lines: [] }
}

for (const [screen, width] of [
  ['phone', 360],
  ['wide screen', 1440],
] as const) {
  test(`of a large show the rows and menus near the view are drawn, and all can be reached: ${screen}`, async ({
    page,
  }) => {
    await page.setViewportSize({ width, height: 800 })
    await openShow(page, largeShow(500), 'power')
    const rows = page.locator('.power [data-row]')
    await expect(rows.first()).toBeVisible()
    expect(await rows.count()).toBeLessThan(200)
    expect(await page.locator('.power option').count()).toBeLessThan(2000)
    await expect(page.locator('[data-row="l999"]')).toHaveCount(0)

    // The last is drawn where one comes to it, and the first no more.
    await page.getByRole('button', { name: 'Add a lead or metalwork' }).scrollIntoViewIfNeeded()
    const last = page.locator('[data-row="l999"]')
    await expect(last).toBeInViewport()
    await expect(last).toHaveAttribute('aria-posinset', '1000')
    await expect(last).toHaveAttribute('aria-setsize', '1000')
    expect(await rows.count()).toBeLessThan(200)
    if (width < 1000) await last.locator('summary').click()
    const from = last.getByLabel('From')
    await expect(from.locator('option')).toHaveText(['Piece 499'])
    await from.click()
    await expect(from.locator('option')).toHaveCount(501)
    await page.keyboard.press('Escape')
    await from.selectOption({ label: 'Piece 250' })
    await page.keyboard.press('Tab')
    await expect(from.locator('option')).toHaveText(['Piece 250'])

    // What is being edited stays, wherever one looks meanwhile.
    await last.getByLabel('Name').fill('To the balcony')
    await page.getByRole('heading', { level: 1 }).scrollIntoViewIfNeeded()
    await expect(page.locator('[data-row="e0"]')).toBeVisible()
    await expect(page.locator('[data-row="l500"]')).toHaveCount(0)
    await expect(last.getByLabel('Name')).toBeFocused()
    await expect(last.getByLabel('Name')).toHaveValue('To the balcony')
    // Paper has all of it.
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')))
    await expect(rows).toHaveCount(1500)
    await page.evaluate(() => dispatchEvent(new Event('afterprint')))
    await expect(page.locator('[data-row="l500"]')).toHaveCount(0)
  })
}

test('rows of a long list are gone through by the keyboard', async ({ page }) => {
  await page.setViewportSize({ width: 1440, height: 800 })
  await openShow(page, largeShow(100), 'power')
  await page.locator('[data-row="e70"]').waitFor({ state: 'detached' })
  await page.locator('[data-row="e0"]').getByLabel('Name').focus()
  const names = new Set<string>()
  for (let count = 0; count < 9 * 45; count++) {
    await page.keyboard.press('Tab')
    const row = await page.evaluate(() => document.activeElement?.closest<HTMLElement>('[data-row]')?.dataset['row'])
    if (row !== undefined) names.add(row)
  }
  expect([...names].slice(0, 40)).toEqual(Array.from({ length: 40 }, (_, index) => `e${index}`))
})

for (const width of [360, 1440]) {
  test(`axe finds no fault in long lists with a question beside a field, ${width} px`, async ({ page }) => {
    await page.setViewportSize({ width, height: 740 })
    await openShow(page, { ...largeShow(61), power: [{ id: 'left', name: 'Left', difference: '300' }] }, 'power')
    if (width < 1000) await page.locator('[data-row="left"] summary').click()
    await expect(page.locator('[data-row="left"] .problem')).toContainText('300 V?')
    const { violations } = await new AxeBuilder({ page }).include('.power').analyze()
    expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([])
  })
}
