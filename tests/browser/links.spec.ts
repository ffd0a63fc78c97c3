// A link that is broken says so, keeps its text, and what it says besides is used.

import { answer } from './engine'
import { expect, expectAnswer, input, open, test } from './page'

for (const [what, hash, message, raw] of [
  ['of another version', '#9/pickup/load_r=1M', 'cannot read', '9/pickup/load_r=1M'],
  ['of no form at all', '#load_r=1M', 'cannot read', 'load_r=1M'],
  ['to no calculator', '#1/teleport/load_r=1M', 'teleport', 'load_r = 1M'],
] as const) {
  test(`a link ${what} leads to the list`, async ({ page }) => {
    await open(page, hash)
    await expect(page.locator('main .notice')).toContainText(message)
    await expect(page.locator('main .notice pre')).toHaveText(raw)
    await page.getByRole('link', { name: 'Levels' }).click()
    await expectAnswer(page, answer('levels'))
    await expect(page.locator('main .notice')).toHaveCount(0)
  })
}

test('a field that there is not', async ({ page }) => {
  await open(page, '#1/pickup/warp=9&load_r=10k')
  await expect(page.locator('main .notice')).toContainText('no field “warp”')
  await expect(page.locator('main .notice pre')).toHaveText('warp = 9')
  await expect(input(page, 'load_r')).toHaveValue('10k')
  await expectAnswer(page, answer('pickup', { load_r: '10k' }))
  // It stays in the link until somebody takes it out.
  await input(page, 'load_r').fill('140k')
  await expect(page).toHaveURL(/warp=9.*load_r=140k/)
  await page.locator('main .notice').getByRole('button', { name: 'Remove' }).click()
  await expect(page.locator('main .notice')).toHaveCount(0)
  await expect(page).toHaveURL(/pickup\/load_r=140k$/)
})

test('several fields that there are not, each with its own text', async ({ page }) => {
  await open(page, '#1/pickup/zeta=1&alpha=2')
  const strange = (id: string) => page.locator('main .notice').filter({ hasText: `no field “${id}”` })
  await expect(strange('zeta').locator('pre')).toHaveText('zeta = 1')
  await strange('zeta').getByRole('button', { name: 'Remove' }).click()
  await expect(page).toHaveURL(/pickup\/alpha=2$/)
  await expect(strange('alpha').locator('pre')).toHaveText('alpha = 2')
})

test('broken percents', async ({ page }) => {
  await open(page, '#1/pickup/load_r=%E0%A4%A&lead_length=6_m')
  await expect(input(page, 'load_r')).toHaveValue('%E0%A4%A')
  await expect(input(page, 'load_r')).toHaveAttribute('aria-invalid', 'true')
  await expect(input(page, 'lead_length')).toHaveValue('6 m')
  await input(page, 'load_r').fill('10k')
  await expectAnswer(page, answer('pickup', { load_r: '10k', lead_length: '6 m' }))
})

test('pieces that say nothing, and settings that there are not', async ({ page }) => {
  await open(page, '#1/pickup/load_r=10k&loose?in=feet,60&colour=red')
  await expect(page.locator('main .notice')).toContainText('could not be used')
  await expect(page.locator('main .notice pre')).toHaveText(['loose', 'colour=red', 'in=feet'])
  await expectAnswer(page, answer('pickup', { load_r: '10k' }))
  // As long as nobody changes anything the address is the link that was opened.
  await page.evaluate(() => location.reload())
  await expect(page.locator('main .notice pre')).toHaveText(['loose', 'colour=red', 'in=feet'])
})

test('the way back leads to what was put in just before', async ({ page }) => {
  await open(page, '#1/pickup')
  await expect(page.getByRole('button', { name: 'Keep to compare' }).first()).toBeVisible()
  await page.evaluate(() => {
    const text = document.querySelector<HTMLInputElement>('[data-field="load_r"] input[type=text]')
    const hold = [...document.querySelectorAll('button')].find(({ textContent }) => textContent === 'Keep to compare')
    if (text === null || hold === undefined) throw new Error('the fields are not there')
    text.value = '140k'
    text.dispatchEvent(new InputEvent('input', { bubbles: true }))
    hold.click()
  })
  await expect(page.locator('[data-held]')).toHaveCount(1)
  await page.goBack()
  await expect(page.locator('[data-held]')).toHaveCount(0)
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
})

test('a field that is in a link twice has its last value, and the link is told of', async ({ page }) => {
  await open(page, '#1/pickup/load_r=10k&load_r=20k')
  await expect(input(page, 'load_r')).toHaveValue('20k')
  await expect(page.getByRole('alert')).toContainText('Parts of this link could not be used:')
  await expect(page.getByRole('alert').locator('pre')).toHaveText('load_r=10k')
})
