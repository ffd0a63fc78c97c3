// Rigs that have a name: kept on the device, opened by a tap, renamed, removed.

import type { Page } from '@playwright/test'
import { answer } from './engine'
import { expect, expectAnswer, input, open, setting, test } from './page'
import { allForms } from './places'

test.use({ viewport: { width: 360, height: 740 }, hasTouch: true })

const rig = (page: Page, name: string) => page.locator(`[data-rig="${name}"]`)

async function keepRig(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Keep this rig' }).tap()
  await page.getByLabel('Name of the rig').fill(name)
  await page.keyboard.press('Enter')
}

for (const form of allForms) {
  test(`kept, opened, renamed, removed and brought back: ${form}`, async ({ page }) => {
    await open(page, '#1/pickup', form)
    await input(page, 'load_r').fill('140k')
    await input(page, 'lead_length').fill('12 m')
    await keepRig(page, 'Saturday, <bass> & co')
    await expect(page.locator('.keep-rig [role=status]')).toContainText('Kept as “Saturday, <bass> & co”')
    await input(page, 'load_r').fill('1M')
    await keepRig(page, 'Church')
    await page.getByRole('link', { name: 'All', exact: true }).click()
    await page.reload()
    await expect(page.locator('.rigs a bdi')).toHaveText(['Church', 'Saturday, <bass> & co'])
    await expect(rig(page, 'Church')).toContainText('Lead length 12 m, Load resistance 1M')
    await page.locator('.rigs a').last().tap()
    await expectAnswer(page, answer('pickup', { load_r: '140k', lead_length: '12 m' }))

    await page.getByRole('link', { name: 'All', exact: true }).click()
    await page.getByRole('button', { name: 'Rename or remove Church' }).tap()
    await page.getByLabel('Name of the rig').fill('Saturday, <bass> & co')
    await page.getByRole('button', { name: 'Rename', exact: true }).tap()
    await expect(page.getByRole('alert')).toHaveText('Another rig has this name already.')
    await page.getByLabel('Name of the rig').fill('Chapel')
    await page.getByRole('button', { name: 'Rename', exact: true }).tap()
    await expect(page.locator('.rigs a bdi')).toHaveText(['Chapel', 'Saturday, <bass> & co'])

    await page.getByRole('button', { name: 'Rename or remove Chapel' }).tap()
    await rig(page, 'Chapel').getByRole('button', { name: 'Remove', exact: true }).tap()
    await expect(page.locator('.rigs a')).toHaveCount(1)
    await expect(page.locator('.rigs [role=status]')).toContainText('“Chapel” is removed.')
    await page.getByRole('button', { name: 'Undo', exact: true }).tap()
    await expect(page.locator('.rigs a bdi')).toHaveText(['Chapel', 'Saturday, <bass> & co'])
    await page.reload()
    await rig(page, 'Chapel').locator('a').tap()
    await expectAnswer(page, answer('pickup', { load_r: '1M', lead_length: '12 m' }))
  })
}

test('the same name takes the place of the first, and says so before', async ({ page }) => {
  await open(page, '#1/pickup/load_r=140k')
  await keepRig(page, 'Bass')
  await open(page, '#1/levels/level=7')
  await page.getByRole('button', { name: 'Keep this rig' }).click()
  await page.getByLabel('Name of the rig').fill('Bass')
  await page.getByRole('button', { name: 'Replace “Bass”' }).click()
  await expect(page.locator('.keep-rig [role=status]')).toHaveText('Kept as “Bass”. It replaced the rig of that name.')
  await open(page)
  await expect(page.locator('.rigs a')).toHaveCount(1)
  await rig(page, 'Bass').locator('a').click()
  await expectAnswer(page, answer('levels', { level: '7' }))
})

test('what was replaced can be had back', async ({ page }) => {
  await open(page, '#1/pickup/load_r=140k')
  await keepRig(page, 'Bass')
  const undo = page.locator('.keep-rig').getByRole('button', { name: 'Undo' })
  await expect(page.locator('.keep-rig [role=status]')).toContainText('Kept as “Bass”')
  await expect(undo).toHaveCount(0)
  await open(page, '#1/levels/level=7')
  await keepRig(page, 'Bass')
  await undo.tap()
  await expect(page.locator('.keep-rig [role=status]')).toHaveText('The earlier “Bass” is back.')
  await expect(undo).toHaveCount(0)
  await open(page)
  await rig(page, 'Bass').locator('a').click()
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
})

test('Escape closes the form of a name', async ({ page }) => {
  await open(page, '#1/pickup')
  const opener = page.getByRole('button', { name: 'Keep this rig' })
  await opener.tap()
  await expect(page.getByLabel('Name of the rig')).toBeFocused()
  await page.keyboard.press('Escape')
  await expect(page.getByLabel('Name of the rig')).toHaveCount(0)
  await expect(opener).toBeFocused()
})

for (const name of ['QuotaExceededError', 'SecurityError']) {
  test(`where the browser saves nothing, it says so and lasts while the page is open: ${name}`, async ({ page }) => {
    await page.addInitScript(name => {
      Storage.prototype.setItem = () => {
        throw new DOMException('no', name)
      }
    }, name)
    await open(page, '#1/pickup/load_r=140k')
    await keepRig(page, 'Bass')
    await expect(page.locator('.keep-rig [role=status]').first()).toContainText("can't save “Bass”")
    await expect(page.locator('.keep-rig').getByRole('button', { name: 'Copy link' })).toBeVisible()
    await page.getByRole('link', { name: 'All', exact: true }).click()
    await rig(page, 'Bass').locator('a').click()
    await expectAnswer(page, answer('pickup', { load_r: '140k' }))
  })
}

test('what cannot be read is shown, and nothing else is lost', async ({ page }) => {
  await open(page)
  await page.evaluate(() => localStorage.setItem('stageohm.rigs', '[{"name":7}]'))
  await page.reload()
  await expect(page.getByRole('alert').locator('pre')).toHaveText('rigs = [{"name":7}]')
  await expect(page.locator('.rigs')).toHaveCount(0)
})

test('a rig keeps its meaning under other settings', async ({ page }) => {
  await open(page, '#1/pickup/lead_length=12')
  await keepRig(page, 'Long lead')
  await setting(page, 'feet')
  await page.getByRole('link', { name: 'All', exact: true }).click()
  await rig(page, 'Long lead').locator('a').click()
  await expectAnswer(page, answer('pickup', { lead_length: '12 m' }, { settings: { length: 'foot' } }))
})

test('a pin keeps the values that it was pinned with', async ({ page }) => {
  await open(page, '#1/pickup/load_r=140k')
  await page.locator('.pin').click()
  await input(page, 'load_r').fill('1M')
  await expectAnswer(page, answer('pickup', { load_r: '1M' }))
  // Others are used until the last one is none of the last.
  for (const id of ['levels', 'pad', 'phantom', 'transformer']) {
    await open(page, `#1/${id}`)
    await expect(page.locator(`[data-calculator="${id}"]`)).toBeVisible()
  }
  await open(page)
  await expect(page.locator('.at-hand a').first()).toContainText('Load resistance 140k')
  await page.locator('.at-hand a').first().tap()
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
})

test('a pin of an older version opens as it did', async ({ page }) => {
  await open(page)
  await page.evaluate(() => {
    localStorage.setItem('stageohm.pinned', '["pickup","pad"]')
    localStorage.setItem('stageohm.recent', '[{"calculator":"pickup","hash":"#1/pickup/load_r=140k"}]')
  })
  await page.reload()
  await expect(page.locator('.at-hand a')).toHaveText([/^Pickup.*pinned$/, /^Pads.*pinned$/])
  await page.locator('.at-hand a').first().tap()
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
})

test('what is touched is large enough, and fits the screen', async ({ page }) => {
  await open(page, '#1/pickup/load_r=140k')
  await keepRig(page, 'Anextremelylongnamewithoutanyspacesthatfitsonnophoneatall123')
  await open(page)
  await page.locator('.rigs button').first().tap()
  const small = await page.locator('.rigs').evaluate(section =>
    [...section.querySelectorAll('button, input, a')]
      .filter(element => {
        const { width, height, right } = element.getBoundingClientRect()
        return width < 44 || height < 44 || right > innerWidth
      })
      .map(element => element.outerHTML),
  )
  expect(small).toEqual([])
})
