// Circuits, equipment and links of a show, edited by hand.

import type { Locator, Page } from '@playwright/test'
import { expect, open, setting, test } from './page'

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
  await expect(row(page, 'power', 0).locator('.problem')).toContainText('“lots” is not understood')
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
