// Held values stand beside the present ones, in the plots and in a table, and
// the link brings them back.

import type { Page } from '@playwright/test'
import type { Answer, Reading } from '../../www/generated/contract'
import { answer, change, curvesOf, descriptions, headline, isMoved } from './engine'
import { curves, expect, expectAnswer, input, open, test } from './page'

for (const description of descriptions()) {
  test(description.title, async ({ page, context }) => {
    const { field, text, before, after } = change(description)
    await open(page, `#1/${description.id}`)
    await page
      .getByRole('button', { name: /^Keep (to compare|these values to compare)$/ })
      .first()
      .click()
    await input(page, field).fill(text)
    await expectAnswer(page, after)
    await expectBeside(page, after, before)

    await expect(page).toHaveURL(/=/)
    const second = await context.newPage()
    await second.goto(page.url())
    await expectAnswer(second, after)
    await expectBeside(second, after, before)
    await second.getByRole('button', { name: /^Use the kept values/ }).click()
    await expectAnswer(second, before)
    await expectBeside(second, before, after)

    await second.getByRole('button', { name: /^Remove the kept values/ }).click()
    await expect(second.locator('.compare')).toHaveCount(0)
    await expect.poll(() => curves(second, 1)).toEqual([])
  })
}

test('three curves may be held, and each can be removed', async ({ page }) => {
  await open(page, '#1/pickup')
  for (const load of ['1M', '140k', '10k']) {
    await input(page, 'load_r').fill(load)
    await page.getByRole('button', { name: 'Keep to compare' }).click()
  }
  await input(page, 'load_r').fill('300k')
  await expect(page.getByRole('button', { name: 'Three are kept' })).toBeDisabled()
  await expectColumns(page, ['300k', '1M', '140k', '10k'])
  await page
    .locator('[data-held="2"]')
    .getByRole('button', { name: /^Remove/ })
    .click()
  await expectColumns(page, ['300k', '1M', '10k'])
  await page.goBack()
  await expectColumns(page, ['300k', '1M', '140k', '10k'])
})

test('held values follow the settings too', async ({ page }) => {
  await open(page, '#1/pickup/lead_length=6_m/lead_length=20?in=foot')
  await expect(input(page, 'lead_length')).toHaveValue('6 m')
  const held = answer('pickup', { lead_length: '20' }, { settings: { length: 'foot' } })
  await expect(cells(page, headline(held)[0]?.name ?? '').nth(1)).toHaveText(headline(held)[0]?.text ?? '')
})

/** The page shows both answers, curve by curve and number by number. */
async function expectBeside(page: Page, now: Answer, held: Answer) {
  const [was, is] = [held, now].map(({ report }) => report?.plots[0])
  if (was !== undefined && is !== undefined) {
    // What is there to compare with is not drawn twice.
    const [before, after] = [curvesOf(was), curvesOf(is)]
    await expect.poll(() => curves(page)).toHaveLength(is.traces.length)
    await expect.poll(() => curves(page, 1)).toHaveLength(before.length)
    if (isMoved(before, { ...is, traces: after })) {
      await expect(async () => {
        expect(await curves(page)).not.toEqual(expect.arrayContaining(await curves(page, 1)))
      }).toPass()
    }
  }
  // What is told first of one may stand further down in the other.
  const all = [...headline(held), ...(held.report?.further ?? [])]
  for (const { id, name, text } of headline(now)) {
    const other = all.find(reading => reading.id === id)
    await expect(cells(page, name)).toHaveText([text, beside(other, name)])
  }
}

async function expectColumns(page: Page, loads: string[]) {
  const texts = loads.map(load_r => headline(answer('pickup', { load_r }))[0]?.text ?? '')
  await expect(cells(page, 'Resonance')).toHaveText(texts)
  for (const set of loads.keys()) await expect.poll(() => curves(page, set)).not.toEqual([])
  await expect.poll(() => curves(page, loads.length)).toEqual([])
}

/** The numbers of a reading in the table, those of the present values first. */
function cells(page: Page, name: string) {
  const head = page.getByRole('rowheader', { name, exact: true })
  return page.locator('.compare tbody tr').filter({ has: head }).first().locator('td')
}

/** A reading whose name tells of other values is shown with its name. */
function beside(reading: Reading | undefined, name: string): string {
  if (reading === undefined) return '–'
  return reading.name === name ? reading.text : `${reading.text} (${reading.name})`
}
