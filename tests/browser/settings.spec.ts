// Settings change how numbers are read and written, last where the browser keeps
// things, and go into links; the page does without a browser that keeps things.

import { answer, descriptions } from './engine'
import { expect, expectAnswer, input, open, reading, setting, test } from './page'
import { allForms } from './places'

const settings = { decimal: 'comma', length: 'foot', mains: '60' } as const

for (const form of allForms) {
  test(`settings are kept, ${form}`, async ({ page }) => {
    await open(page, '', form)
    for (const name of ['1,5 comma', 'feet', '60 Hz', 'dark']) await setting(page, name)
    // By the page itself: a browser that is asked from outside may be ahead of what it keeps.
    await page.evaluate(() => location.reload())
    await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')
    await expect(page.locator('html')).toHaveCSS('color-scheme', 'dark')
    for (const { id } of descriptions()) {
      await page.locator(`main a[data-calculator="${id}"]`).click()
      await expectAnswer(page, answer(id, {}, { settings }))
      await page.goBack()
    }
  })
}

test('what was typed keeps its meaning', async ({ page, context }) => {
  // To a reader with a decimal comma 2.500 may be two thousand and five hundred.
  await open(page, '#1/pickup/lead_length=2.500')
  const before = (await reading(page, 'peak').textContent()) ?? ''
  await setting(page, '1,5 comma')
  await expect(input(page, 'lead_length')).toHaveValue('2,5 m')
  await expect(reading(page, 'peak')).toHaveText(before.replace('.', ','))
  await input(page, 'lead_length').fill('2,5')
  await setting(page, 'feet')
  await expect(input(page, 'lead_length')).toHaveValue(/^8,2\d* ft$/)
  await expect(reading(page, 'peak')).toHaveText(before.replace('.', ','))

  // The link says how it was written, and a reader with other settings reads the same.
  await input(page, 'lead_length').fill('8,2')
  await expectAnswer(page, answer('pickup', { lead_length: '8,2' }, { settings: { decimal: 'comma', length: 'foot' } }))
  await expect(page).toHaveURL(/lead_length=8,2\?in=comma,foot/)
  const link = page.url()
  await setting(page, '1.5 point')
  await setting(page, 'metres')
  const second = await context.newPage()
  await second.goto(link)
  await expect(input(second, 'lead_length')).toHaveValue(/^2\.49\d* m$/)
  await expectAnswer(second, answer('pickup', { lead_length: '8.2 ft' }))
})

for (const form of allForms) {
  test(`all works where storage is refused, ${form}`, async ({ page }) => {
    await page.addInitScript(() => {
      const refuse = {
        get: () => {
          throw new DOMException('refused', 'SecurityError')
        },
      }
      Object.defineProperty(window, 'localStorage', refuse)
      Object.defineProperty(window, 'sessionStorage', refuse)
    })
    await open(page, '#1/pickup', form)
    for (const name of ['1,5 comma', 'feet', '60 Hz', 'dark']) await setting(page, name)
    await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')
    await page.getByRole('button', { name: 'Keep to compare' }).click()
    await input(page, 'lead_length').fill('20')
    await expectAnswer(page, answer('pickup', { lead_length: '20' }, { settings }))
    await page.getByRole('button', { name: 'Solve for … from Resonance', exact: true }).click()
    await page.getByLabel('to be').fill('3 kHz')
    await page.getByLabel('by changing').selectOption('lead_length')
    await expect(page.locator('[data-found]').first()).toContainText('ft')
    await page.reload()
    // Nothing was kept but the link, which says the same in the settings of the start.
    await expect(page.locator('html')).not.toHaveAttribute('data-theme')
    await expect(input(page, 'lead_length')).toHaveValue(/^6\.09.* m$/)
  })
}

test('Escape closes the settings, and leads back to their button', async ({ page }) => {
  await open(page)
  const button = page.getByRole('button', { name: 'Settings' })
  for (const inside of [false, true]) {
    await button.focus()
    await page.keyboard.press('Enter')
    if (inside) await page.locator('.settings').getByRole('radio').first().focus()
    await page.keyboard.press('Escape')
    await expect(button).toHaveAttribute('aria-expanded', 'false')
    await expect(button).toBeFocused()
  }
})
