// A reload opens what was on the screen, also while the address lags behind it.

import type { Page } from '@playwright/test'
import { address } from './places'
import { expect, input, open, slider, test } from './page'

test('a reload right after a burst loses nothing', async ({ page }) => {
  await open(page, '#1/pickup')
  const { behind, shown } = await hurry(page, 'ArrowRight')
  await page.reload()
  await expect(input(page, 'lead_length')).toHaveValue(shown)
  expect(page.url()).not.toBe(behind)
  await page.reload()
  await expect(input(page, 'lead_length')).toHaveValue(shown)
})

test('what is opened anew, or come back to, is what its address says', async ({ page }) => {
  await open(page, '#1/pickup')
  const { behind, shown } = await hurry(page, 'ArrowRight')
  await page.goto('about:blank')
  await page.goto(behind)
  await expect(input(page, 'lead_length')).toHaveValue(lengthIn(behind))
  expect(lengthIn(behind)).not.toBe(shown)
  await page.reload()
  await expect(input(page, 'lead_length')).toHaveValue(lengthIn(behind))

  await hurry(page, 'ArrowLeft')
  await page.goto('about:blank')
  await page.goBack()
  await expect(input(page, 'lead_length')).toHaveValue(lengthIn(page.url()))
})

test('a tab beside it and a lesson have nothing of it', async ({ page, context }) => {
  const late = JSON.stringify([`${address}#1/pickup/load_r=1M`, '#1/pickup/load_r=140k'])
  await open(page)
  await page.evaluate(late => sessionStorage.setItem('stageohm.late', late), late)
  const other = await context.newPage()
  await open(other, '#1/pickup/load_r=1M')
  await other.reload()
  await expect(input(other, 'load_r')).toHaveValue('1M')

  await page.goto('about:blank')
  await open(page, '#1/pickup/lead_length=6_m?lesson')
  await slider(page, 'lead_length').focus()
  await page.keyboard.press('ArrowRight')
  await expect(input(page, 'lead_length')).not.toHaveValue('6 m')
  await page.reload()
  await expect(input(page, 'lead_length')).toHaveValue('6 m')
  expect(await page.evaluate(() => sessionStorage.getItem('stageohm.late'))).toBe(null)
})

/** Moves a slider until the address lags behind; answers how that stands then, and what is shown. */
async function hurry(page: Page, key: string): Promise<{ behind: string; shown: string }> {
  await slider(page, 'lead_length').focus()
  for (let move = 1; ; move++) {
    await page.keyboard.press(key)
    await page.waitForTimeout(25)
    if (move % 30 > 0) continue
    const shown = await input(page, 'lead_length').inputValue()
    const behind = page.url()
    if (lengthIn(behind) !== shown) return { behind, shown }
    // A machine that was slow just then.
    expect(move).toBeLessThan(150)
  }
}

function lengthIn(url: string): string {
  return `${/lead_length=([\d.]+)/.exec(url)?.[1]} m`
}
