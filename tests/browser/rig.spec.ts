// The picture of a rig: what is on it, where it leads, and that it can be read.

import { readFileSync } from 'node:fs'
import type { Page } from '@playwright/test'
import type { Description } from '../../www/generated/contract'
import { answer, descriptions } from './engine'
import { expect, field, open, test } from './page'
import { allForms } from './places'

const PICTURED = ['whole-line', 'box-or-straight', 'level-chain', 'ground-loop']
const SIZES = [
  [360, 740],
  [820, 1180],
  [1440, 900],
] as const

const rig = (page: Page) => page.locator('section.rig')
const part = (page: Page, name: string) => rig(page).getByRole('button', { name: new RegExp(`^${name}`) })

/** Where each preset leads, those that it holds too. */
function hashes({ id, presets }: Description): string[] {
  const fillings = presets.flatMap(({ values, held }) => [values, ...held])
  const write = (values: readonly (readonly [string, string])[]) =>
    values.map(([field, text]) => `${field}=${encodeURIComponent(text)}`).join('&')
  return fillings.map(values => `#1/${id}/${write(values)}`)
}

for (const description of descriptions().filter(({ id }) => PICTURED.includes(id))) {
  for (const [width, height] of SIZES) {
    test(`${description.title}: no label lies on another or beyond the edge, ${width} × ${height}`, async ({
      page,
    }) => {
      await page.setViewportSize({ width, height })
      for (const hash of hashes(description)) {
        await open(page, hash)
        await expect(rig(page).locator('svg')).toBeVisible()
        const { labels, faults } = await rig(page)
          .locator('svg')
          .evaluate(picture => {
            const edge = picture.getBoundingClientRect()
            const boxes = [...picture.querySelectorAll('text')].map(text => ({
              text: text.textContent,
              box: text.getBoundingClientRect(),
            }))
            // The boxes of two lines of one text touch.
            const over = (a: DOMRect, b: DOMRect) =>
              a.left < b.right && b.left < a.right && a.top + 2 < b.bottom - 2 && b.top + 2 < a.bottom - 2
            const out = boxes.filter(
              ({ box }) =>
                box.left < edge.left || box.right > edge.right || box.top < edge.top || box.bottom > edge.bottom,
            )
            const crossed = boxes.filter(({ box }, at) => boxes.some((other, i) => i < at && over(box, other.box)))
            const symbols = [...picture.querySelectorAll('[data-part] > g')].map(symbol =>
              symbol.getBoundingClientRect(),
            )
            const covered = boxes.filter(
              ({ text, box }) => !/^(dB|A|D)$/.test(text) && symbols.some(symbol => over(box, symbol)),
            )
            const small = parseFloat(getComputedStyle(picture).fontSize) < 12 ? ['letters'] : []
            return {
              labels: boxes.length,
              faults: [...[...out, ...crossed, ...covered].map(({ text }) => text), ...small],
            }
          })
        expect(faults, hash).toEqual([])
        expect(labels).toBeGreaterThan(4)
      }
    })
  }
}

for (const form of allForms) {
  test(`the picture comes when it is wanted, ${form}`, async ({ page }) => {
    const asked: string[] = []
    page.on('requestfinished', request => asked.push(request.url()))
    await open(page, '#1/pickup', form)
    await expect(rig(page)).toHaveCount(0)
    await page.evaluate(() => (location.hash = '#1/whole-line'))
    const { report } = answer('whole-line')
    const parts = report?.diagram?.parts ?? []
    expect(parts.length).toBeGreaterThan(4)
    await expect(rig(page).locator('svg [data-part]')).toHaveCount(parts.length)
    for (const { name, values } of parts) {
      const said = [name, ...values].join(', ').replaceAll('\u00a0', ' ')
      await expect(part(page, said.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))).toBeVisible()
    }
    await expect(rig(page).getByRole('img')).toHaveAttribute('aria-label', report?.diagram?.summary ?? '')
  })
}

test('a part leads to its fields, from the keyboard too', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 740 })
  await open(page, '#1/level-chain')
  await part(page, 'active DI').click()
  await expect(field(page, 'box').locator(':is(input:checked, select)')).toBeFocused()
  await open(page, '#1/whole-line/pad=20')
  await part(page, 'pad').focus()
  await page.keyboard.press('Enter')
  await expect(field(page, 'pad').locator('input[type=text]')).toBeFocused()
  await expect(field(page, 'pad')).toBeInViewport()
})

test('what was chosen by itself leads to the ways among which it was', async ({ page }) => {
  await open(page, '#1/box-or-straight')
  await part(page, 'active DI').click()
  await expect(page.locator('.ranking h2')).toBeFocused()
})

test('every part is large enough for a finger', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 740 })
  await open(page, '#1/whole-line/source=output&power=earthed&box=passive&ground=lifted&thru=earthed')
  await expect(rig(page).locator('svg')).toBeVisible()
  const sizes = await rig(page)
    .getByRole('button')
    .evaluateAll(all => all.map(button => button.getBoundingClientRect()).map(({ width, height }) => [width, height]))
  expect(sizes.length).toBe(6 + 3 + 2)
  for (const [width, height] of sizes) expect(Math.min(width ?? 0, height ?? 0)).toBeGreaterThanOrEqual(44)
})

test('the loop is closed, and the lift opens it', async ({ page }) => {
  const earthed = '#1/whole-line/source=output&power=earthed&box=passive'
  await open(page, earthed)
  await expect(rig(page).locator('.loop')).toHaveAttribute('data-open', 'false')
  await expect(part(page, 'Earth loop from source to console, closed')).toBeVisible()
  await open(page, `${earthed}&ground=lifted`)
  await expect(rig(page).locator('.loop')).toHaveAttribute('data-open', 'true')
  await part(page, 'Earth loop from source to console, open').click()
  await expect(field(page, 'difference').locator('input[type=text]')).toBeFocused()
})

test('a lesson that hides something gives nothing of it away', async ({ page }) => {
  // What decides which parts there are hides the picture.
  await open(page, '#1/whole-line/box=passive?lesson&hide=box')
  await expect(page.locator('.headline')).toBeVisible()
  await expect(rig(page)).toHaveCount(0)
  // What does not hides the values.
  await open(page, '#1/whole-line/source=output&power=earthed&difference=300_mV?lesson&hide=difference')
  await expect(rig(page).locator('svg')).toBeVisible()
  await expect(rig(page).locator('svg')).toContainText('console input')
  await expect(rig(page)).not.toContainText(/\d/)
  const names = await rig(page)
    .locator('[aria-label]')
    .evaluateAll(all => all.map(element => element.ariaLabel))
  expect(names.length).toBeGreaterThan(4)
  expect(names.join(' ')).not.toMatch(/\d/)
  // What hides nothing shows all.
  await open(page, '#1/whole-line?lesson&lock=box')
  await expect(rig(page).locator('svg')).toContainText('dBu')
})

test('it is saved as a picture that stands alone', async ({ page }) => {
  await open(page, '#1/whole-line')
  const waiting = page.waitForEvent('download')
  await rig(page).getByRole('button', { name: 'Save SVG' }).click()
  const saved = await waiting
  expect(saved.suggestedFilename()).toMatch(/^stageohm-whole-line-rig-.*\.svg$/)
  const svg = readFileSync(await saved.path(), 'utf8')
  expect(svg).toMatch(/<title>The rig\. Whole line\. .+<\/title>/)
  expect(svg).toContain('active DI')
  expect(svg).not.toMatch(/class=|var\(/)
})

test('it is on paper too', async ({ page }) => {
  await open(page, '#1/ground-loop')
  await expect(rig(page).locator('svg')).toBeVisible()
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')))
  await expect(page.locator('#paper figure.rig svg')).toContainText('Earth loop')
  await page.evaluate(() => dispatchEvent(new Event('afterprint')))
})
