// Bad input gets a clear message at its cause, and nothing that was typed is lost.

import { answer, change, descriptions } from './engine'
import { expect, expectAnswer, field, input, open, reading, slider, test } from './page'
import { allForms } from './places'

const NONSENSE = '12 pigs'

for (const description of descriptions()) {
  test(`nonsense in ${description.title}`, async ({ page }) => {
    const { field: id, before, after, text } = change(description)
    const { message } = problem(description.id, id, NONSENSE)
    await open(page, `#1/${description.id}`)
    await input(page, id).fill(NONSENSE)
    const expectProblem = async () => {
      await expect(input(page, id)).toHaveAttribute('aria-invalid', 'true')
      await expect(input(page, id)).toHaveAccessibleDescription(message)
      await expect(field(page, id).getByText(message)).toBeVisible()
      await expect(input(page, id)).toHaveValue(NONSENSE)
    }
    await expectProblem()
    await expect(page.locator('.answer')).toHaveAttribute('data-stale', 'true')
    await expect(page.locator('.answer .stale')).toContainText('Last good answer')
    const [first] = before.report?.headline ?? []
    await expect(reading(page, first?.id ?? '')).toHaveText(first?.text ?? '')
    await page.getByRole('button', { name: /^See / }).click()
    await expect(input(page, id)).toBeFocused()

    await expect(page).toHaveURL(/12_pigs/)
    await page.reload()
    await expectProblem()
    await expect(page.locator('.answer .stale')).toContainText('No answer yet')
    await input(page, id).fill(text)
    await expectAnswer(page, after)
    await expect(input(page, id)).toHaveAttribute('aria-invalid', 'false')
  })
}

for (const form of allForms) {
  test(`what can be read in two ways is asked about, ${form}`, async ({ page }) => {
    const { message, offers } = problem('pickup', 'load_r', '1,500')
    expect(offers).toHaveLength(2)
    await open(page, '#1/pickup', form)
    for (const offer of offers) {
      await input(page, 'load_r').fill('1,500')
      await expect(input(page, 'load_r')).toHaveAccessibleDescription(new RegExp(message))
      await expect(field(page, 'load_r').locator('[data-problem]').getByRole('button')).toHaveText(offers)
      await field(page, 'load_r').getByRole('button', { name: offer, exact: true }).click()
      await expect(input(page, 'load_r')).toHaveValue(offer)
      await expectAnswer(page, answer('pickup', { load_r: offer }))
    }
  })
}

test('what cannot be is explained at the field that can mend it', async ({ page }) => {
  const values = { band_from: '20 kHz', band_to: '20 Hz' }
  const faulty = Object.entries(answer('noise-floor', values).fields).filter(([, { problem }]) => problem !== null)
  expect(faulty).toHaveLength(1)
  const [id, echo] = faulty[0] ?? []
  await open(page, '#1/noise-floor/band_from=20_kHz&band_to=20_Hz')
  await expect(input(page, id ?? '')).toHaveAccessibleDescription(new RegExp(echo?.problem?.message ?? 'no problem'))
  await expect(page.locator('[data-problem]')).toHaveCount(1)
})

test('what was typed fast survives a reload as soon as it is answered', async ({ page }) => {
  await open(page, '#1/pickup')
  await input(page, 'load_r').fill('')
  await input(page, 'load_r').pressSequentially('123 pigs')
  // By the page itself: a browser that is asked from outside may reload an address
  // that is some milliseconds old.
  await page.evaluate(() => requestAnimationFrame(() => setTimeout(() => location.reload())))
  await expect(input(page, 'load_r')).toHaveValue('123 pigs')
})

test('what makes no sense moves neither its field nor its slider', async ({ page }) => {
  await open(page, '#1/source-load/load_r=140k')
  await expectAnswer(page, answer('source-load', { load_r: '140k' }))
  await input(page, 'load_r').focus()
  const before = { box: await input(page, 'load_r').boundingBox(), at: await slider(page, 'load_r').inputValue() }
  await input(page, 'load_r').fill('banana')
  await expect(page.locator('[data-problem]')).toHaveCount(1)
  await expect(page.locator('.stale')).toBeVisible()
  expect(await slider(page, 'load_r').inputValue()).toBe(before.at)
  expect((await input(page, 'load_r').boundingBox())?.y).toBe(before.box?.y)
})

test('on a phone the card about it covers nothing that one still wants', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 740 })
  for (const [screen, id] of [
    ['source-load', 'load_r'],
    ['box-or-straight', 'lead_length'],
    ['ground-loop', 'lead_length'],
  ] as const) {
    await open(page, `#1/${screen}`)
    await expect(page.locator('.lead .value')).toBeVisible()
    await page
      .getByRole('button', { name: /^Help: / })
      .first()
      .click()
    await expect(page.locator('.purpose')).toBeVisible()
    await input(page, id).fill('banana')
    const card = await page.locator('.stale').boundingBox()
    if (card === null) throw new Error('no card')
    const covered = await page
      .locator('main :is(h1, .purpose, .question .field, .presets, .lead dt, .lead .value)')
      .evaluateAll(
        (parts, [top, bottom]) =>
          parts
            .map(part => [part.textContent, part.getBoundingClientRect()] as const)
            .filter(([, box]) => box.top + scrollY < (bottom ?? 0) - 1 && box.bottom + scrollY > (top ?? 0) + 1)
            .map(([text]) => text),
        [card.y + (await page.evaluate(() => scrollY)), card.y + card.height + (await page.evaluate(() => scrollY))],
      )
    expect(covered, screen).toEqual([])
  }
})

test('a negative number of volts may be meant as a level', async ({ page }) => {
  await open(page, '#1/source-load')
  await input(page, 'emf').fill('-20')
  await page.getByRole('button', { name: '−20 dBV' }).click()
  await expectAnswer(page, answer('source-load', { emf: '-20 dBV' }))
})

function problem(calculator: string, id: string, text: string) {
  const found = answer(calculator, { [id]: text }).fields[id]?.problem
  if (!found) throw new Error(`${id} of ${calculator} understands ${text}`)
  return found
}
