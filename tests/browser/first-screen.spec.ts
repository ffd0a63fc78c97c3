// On a phone the question and its answer are the first screen of every calculator,
// in the frame of a lesson too.

import type { FrameLocator, Page } from '@playwright/test'
import { answer, descriptions } from './engine'
import { expect, field, input, open, reading, test } from './page'
import { address } from './places'

const WIDTH = 360
const HEIGHT = 740

test.use({ viewport: { width: WIDTH, height: HEIGHT }, hasTouch: true, isMobile: true })

for (const { id, title, first } of descriptions()) {
  test(title, async ({ page }) => {
    const asked = first.filter(field => answer(id).fields[field]?.active)
    for (const lesson of ['', '?lesson']) {
      await open(page, `#1/${id}${lesson}`)
      await expectFirst(page, asked)
    }
  })
}

test('in a frame', async ({ page }) => {
  const frame = `<iframe sandbox="allow-scripts" style="border:0;width:${WIDTH}px;height:${HEIGHT}px" src="${address}stageohm.html#1/box-or-straight?lesson"></iframe>`
  // From the same host, since the browser keeps other pages from this machine.
  const outer = new URL('/', address).href
  const body = `<!doctype html><meta name="viewport" content="width=device-width"><body style="margin:0">${frame}`
  await page.route(outer, route => route.fulfill({ contentType: 'text/html', body }))
  await page.goto(outer)
  await expectFirst(page.frameLocator('iframe'), ['source', 'lead_length', 'run_length', 'input'])
})

test('the answer names what it is for, and what the other kind would cost', async ({ page }) => {
  await open(page, '#1/box-or-straight')
  await field(page, 'source').locator('select').selectOption('bass')
  await input(page, 'lead_length').fill('6')
  await input(page, 'run_length').fill('30')
  const lead = page.locator('.reading.lead')
  await expect(lead.locator('dt')).toHaveText('passive bass, 6\u00a0m + 30\u00a0m, into a microphone input:')
  await expect(lead.locator('.value')).toHaveText('active DI on phantom')
  await expect(lead.locator('.verdict')).toContainText(/Or passive DI: just as good, [\d.]+\sdB to spare/)
  expect(await bottom(lead)).toBeLessThanOrEqual(HEIGHT)
})

test('what the author of a lesson hides, the answer does not name', async ({ page }) => {
  await open(page, '#1/box-or-straight/source=bass?lesson&hide=source')
  await expect(reading(page, 'take')).not.toHaveText('')
  await expect(page.locator('.reading.lead dt')).toHaveText('Use')
  await expect(page.locator('main')).not.toContainText('passive bass')
})

test('each way is a line that unfolds its reasons, by keys too, and all are on paper', async ({ page }) => {
  await open(page, '#1/box-or-straight')
  const { ranking } = answer('box-or-straight').report ?? { ranking: [] }
  expect(ranking.length).toBeGreaterThan(2)
  for (const { id, name, verdict, reasons } of ranking) {
    const way = page.locator(`[data-candidate="${id}"]`)
    await expect(way.locator('summary')).toContainText(name)
    await expect(way.locator('summary')).toContainText(verdict.text)
    await expect(way.locator('.reasons')).toBeHidden()
    await way.locator('summary').focus()
    await page.keyboard.press('Enter')
    await expect(way.locator('.reasons > li')).toHaveCount(reasons.length)
    await expect(way.locator('.reasons')).toBeVisible()
    await page.keyboard.press('Enter')
    await expect(way.locator('.reasons')).toBeHidden()
  }
  await page.emulateMedia({ media: 'print' })
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')))
  const paper = page.locator('#paper .ranked li')
  await expect(paper).toHaveCount(ranking.length)
  for (const [index, { reasons }] of ranking.entries()) {
    for (const { reading } of reasons) await expect(paper.nth(index)).toContainText(reading.text)
  }
})

test('the purpose unfolds from the title', async ({ page }) => {
  await open(page, '#1/pickup')
  const { purpose } = descriptions().find(({ id }) => id === 'pickup') ?? { purpose: 'none' }
  await expect(page.getByText(purpose)).toBeHidden()
  await page.getByRole('button', { name: 'Help: Pickup, lead and load' }).tap()
  await expect(page.getByText(purpose)).toBeVisible()
  await page.setViewportSize({ width: 1024, height: 768 })
  await open(page, '#1/levels')
  await expect(page.locator('.purpose')).toBeVisible()
})

/** The fields of the question, and the answer below them, within the first screen. */
async function expectFirst(page: Page | FrameLocator, asked: readonly string[]): Promise<void> {
  expect(asked.length).toBeGreaterThan(0)
  // A caution that must be read first comes before the answer.
  const lead = page.locator('.answer :is(.lead .value, [data-caution] summary)').first()
  await expect(lead).toBeVisible()
  const ends: number[] = []
  for (const id of asked)
    ends.push(await bottom(page.locator(`.question [data-field="${id}"] :is(input, select)`).first()))
  const end = await bottom(lead)
  expect(Math.max(...ends)).toBeLessThan(end)
  expect(end).toBeLessThanOrEqual(HEIGHT)
}

async function bottom(locator: ReturnType<Page['locator']>): Promise<number> {
  const { y, height } = (await locator.boundingBox()) ?? { y: NaN, height: NaN }
  return y + height
}
