// Asked backwards: which value of a field gives a wanted reading. The answers
// come from a worker beside the page, in both forms of it.

import { answer, change, descriptions, headline, typed } from './engine'
import { expect, expectAnswer, input, open, reading, test } from './page'
import { allForms } from './places'

for (const form of allForms) {
  test(`a resonance by the length of the lead, ${form}`, async ({ page }) => {
    let workers = 0
    page.on('worker', () => workers++)
    await open(page, '#1/pickup', form)
    await page.getByRole('button', { name: 'Solve for … from Resonance', exact: true }).click()
    await expect(page.getByLabel('to be')).toBeFocused()
    await page.getByLabel('to be').fill('3 kHz')
    await page.getByLabel('by changing').selectOption('lead_length')
    const found = page.locator('[data-found]')
    const backwards = { reading: 'peak', value: '3 kHz', field: 'lead_length' }
    const expected = answer('pickup', {}, { backwards }).backwards
    await expect(found.locator('strong')).toHaveText(expected?.found.map(({ text }) => text) ?? [])
    await expect(page.locator('.found')).toContainText(expected?.message ?? '')

    await found.last().getByRole('button').click()
    await expect(input(page, 'lead_length')).toHaveValue(typed(expected?.found.at(-1)?.text ?? ''))
    await expect(reading(page, 'peak')).toHaveText('3 kHz')

    await page.getByLabel('to be').fill('30 kHz')
    await expect(page.locator('.found')).toContainText('No value')
    await expect(found).toHaveCount(0)
    await page.getByLabel('to be').fill('high')
    await expect(page.getByLabel('to be')).toHaveAttribute('aria-invalid', 'true')
    await expect(page.getByLabel('to be')).toHaveAccessibleDescription(/such as 3\skHz/)
    expect(workers).toBe(1)
  })
}

test('a bare number may be meant in the unit that is shown', async ({ page }) => {
  await open(page, '#1/pickup?want=peak:3&field=lead_length')
  const found = page.locator('.found')
  await expect(found).toContainText('No value')
  await found.getByRole('button', { name: 'Did you mean 3 kHz?' }).click()
  await expect(page.getByLabel('to be')).toHaveValue('3 kHz')
  await expect(found.locator('[data-found]').first()).toContainText('gives 3\u00a0kHz')
  await expect(found.getByRole('button', { name: /Did you mean/ })).toHaveCount(0)
})

test('a wanted value and a field put in within one frame are both kept', async ({ page }) => {
  await open(page, '#1/pickup')
  await page.getByRole('button', { name: 'Solve for … from Resonance', exact: true }).click()
  await page.evaluate(() => {
    const [, field] = document.querySelectorAll<HTMLSelectElement>('.backwards select')
    const text = document.querySelector<HTMLInputElement>('.backwards input')
    if (field === undefined || text === null) throw new Error('the question is not there')
    text.value = '4 kHz'
    text.dispatchEvent(new InputEvent('input', { bubbles: true }))
    field.value = 'coil_l'
    field.dispatchEvent(new Event('change', { bubbles: true }))
  })
  await expect(page.locator('[data-found]').first()).toContainText('4 kHz')
  await expect(page.getByLabel('to be')).toHaveValue('4 kHz')
  await expect(page.getByLabel('by changing')).toHaveValue('coil_l')
})

for (const description of descriptions()) {
  test(description.title, async ({ page }) => {
    const { field, before, after } = change(description)
    // How many limits are missed is told only where some are: a reading is found by its name.
    const was = (id: string) => headline(before).find(reading => reading.id === id && reading.value !== null)
    const wanted = headline(after).find(
      ({ id, value }) => value !== null && was(id) !== undefined && was(id)?.value !== value,
    )
    const present = was(wanted?.id ?? '')
    if (wanted === undefined || present === undefined) throw new Error('no number of the answer changes')
    const value = typed(wanted.text)
    await open(page, `#1/${description.id}`)
    await page
      .getByRole('button', { name: `Solve for … from ${present.name}`, exact: true })
      .first()
      .click()
    await page.getByLabel('to be').fill(value)
    await page.getByLabel('by changing').selectOption(field)
    const found = page.locator('[data-found]')
    const texts = found.locator('strong')
    await expect(found.first()).toContainText(wanted.text)

    // The question is in the link.
    await expect(page).toHaveURL(/want=.*field=/)
    const values = await texts.allTextContents()
    await page.reload()
    await expect(page.getByLabel('to be')).toHaveValue(value)
    await expect(texts).toHaveText(values)

    await found.first().getByRole('button').click()
    await expect(reading(page, wanted.id)).toHaveText(wanted.text)
    await expectAnswer(page, answer(description.id, { [field]: typed(values[0] ?? '') }))
    await page.getByRole('button', { name: 'Close', exact: true }).click()
    await expect(page.locator('.backwards')).toHaveCount(0)
  })
}
