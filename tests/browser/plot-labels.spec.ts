// What is written in plots: in every calculator and preset, on a phone, a tablet and
// a desk, no text runs into another or out of the plot; and what stems, rows and
// the key say is what the engine found.

import type { Page } from '@playwright/test'
import { answer, descriptions } from './engine'
import { expect, layOut, open, setting, test } from './page'

const SIZES = [
  { width: 360, height: 740 },
  { width: 820, height: 1180 },
  { width: 1440, height: 900 },
]
const [PHONE, , DESK] = SIZES as [Size, Size, Size]
type Size = (typeof SIZES)[number]

for (const { id, title, presets } of descriptions()) {
  test(title, async ({ page }) => {
    for (const preset of [null, ...presets]) {
      await page.setViewportSize(DESK)
      await open(page, `#1/${id}`)
      if (preset !== null) await page.locator(`[data-preset="${preset.id}"]`).click()
      await expect(page.locator('.answer')).toHaveAttribute('data-stale', 'false')
      for (const size of SIZES) {
        await page.setViewportSize(size)
        await layOut(page)
        await expect.poll(() => colliding(page), `${preset?.id ?? 'as it opens'}, ${size.width} px`).toEqual([])
      }
    }
  })
}

test('letters twice as large', async ({ page }) => {
  await page.setViewportSize(PHONE)
  for (const id of ['noise-floor', 'level-chain', 'ground-loop', 'whole-line']) {
    await open(page, `#1/${id}`)
    await page.evaluate(() => (document.documentElement.style.fontSize = '200%'))
    await layOut(page)
    await expect.poll(() => colliding(page), id).toEqual([])
  }
})

test('hum is a stem a harmonic, from the edge of the plot, and nothing in between', async ({ page }) => {
  await open(page, '#1/ground-loop/connection=balanced')
  const [plot] = answer('ground-loop', { connection: 'balanced' }).report?.plots ?? []
  const paths = page.locator('figure.plot .stems path.curve')
  await expect(paths).toHaveCount(2)
  const [from] = await page
    .locator('figure.plot .grid line')
    .evaluateAll(lines => [Math.max(...lines.map(line => (line as SVGLineElement).y2.baseVal.value))])
  for (const path of await paths.evaluateAll(paths => paths.map(path => path.getAttribute('d') ?? ''))) {
    const stems = [...path.matchAll(/M[\d.]+,([\d.]+)V[\d.]+/g)]
    expect(stems.map(([stem]) => stem).join('')).toBe(path)
    expect(stems).toHaveLength(plot?.stops.length ?? 0)
    for (const [, edge] of stems) expect(Number(edge)).toBeCloseTo(from ?? NaN, 0)
  }
})

test('on a phone the curves of noise are numbered, and the key has names and values', async ({ page }) => {
  await page.setViewportSize(PHONE)
  await open(page, '#1/noise-floor')
  await layOut(page)
  const [plot] = answer('noise-floor').report?.plots ?? []
  const figure = page.locator('figure.plot').first()
  const entries = figure.locator('.legend .words')
  // The first says where the values are read.
  await expect(entries).toHaveCount((plot?.traces.length ?? NaN) + 1)
  const said = await entries.allTextContents()
  plot?.traces.forEach(({ name }, index) => {
    expect(said[index + 1]).toContain(name.split(' ')[0])
    expect(said[index + 1]).toMatch(/\d.*V\/√Hz/)
  })
  const numbers = plot?.traces.map((_, index) => `${index + 1}`)
  expect((await figure.locator('.legend .tag').allTextContents()).sort()).toEqual(numbers?.sort())
  expect((await figure.locator('.names .tag').allTextContents()).sort()).toEqual(numbers?.sort())
})

test('each stage has its headroom written, and the lowest is told by more than its colour', async ({ page }) => {
  await open(page, '#1/level-chain')
  const { report } = answer('level-chain')
  const [plot] = report?.plots ?? []
  const figure = page.locator('figure.plot').first()
  await expect(figure.locator('.rows .at-end')).toHaveText(plot?.markers.map(({ text }) => text) ?? [])
  const stressed = figure.locator('.rows [data-stressed=true]')
  await expect(stressed.filter({ hasText: 'lowest headroom' })).toHaveCSS('font-weight', '700')
  const widths = await figure
    .locator('.distance')
    .evaluateAll(all => all.map(one => [one.getAttribute('data-stressed'), getComputedStyle(one).strokeWidth]))
  expect(new Set(widths.map(([, width]) => width)).size).toBe(2)
  expect(widths.filter(([stressed]) => stressed === 'true')).toHaveLength(1)
  // The noise has a plot of its own.
  await expect(page.locator('figure.plot [data-trace=curve-noise]').first()).toBeVisible()
  await expect(figure.locator('[data-trace=curve-noise]')).toHaveCount(0)
})

test('rows are read by finger and by keys, one after the other', async ({ page }) => {
  await open(page, '#1/level-chain')
  await layOut(page)
  const [plot] = answer('level-chain').report?.plots ?? []
  const names = plot?.x.names ?? []
  const cursor = page.getByRole('slider', { name: /^Read/ }).first()
  const read = page.locator('.under-finger').first()
  await cursor.focus()
  await page.keyboard.press('Home')
  for (const name of names) {
    await expect(read.locator('strong').first()).toContainText(name)
    await page.keyboard.press('ArrowDown')
  }
  await page.keyboard.press('ArrowUp')
  await expect(read.locator('strong').first()).toContainText(names.at(-2) ?? 'no name')
  const box = await cursor.boundingBox()
  if (box === null) throw new Error('the plot is not to be seen')
  await cursor.click({ position: { x: box.width / 2, y: (1.5 / names.length) * box.height } })
  await expect(read.locator('strong').first()).toContainText(names[1] ?? 'no name')
})

test('pictures have the key in them', async ({ page }) => {
  await open(page, '#1/level-chain')
  await setting(page, 'stage')
  // That of the rig comes before it.
  const figure = page.locator('figure:not(.rig)').first()
  await figure.getByText('Save or copy the plot').click()
  const waiting = page.waitForEvent('download')
  await figure.getByRole('button', { name: 'Save SVG' }).click()
  const stream = await (await waiting).createReadStream()
  let text = ''
  for await (const piece of stream) text += String(piece)
  const [plot] = answer('level-chain').report?.plots ?? []
  for (const { name } of plot?.traces ?? []) expect(text).toContain(`>${name}</tspan>`)
  for (const { text: marked } of plot?.markers ?? []) expect(text).toContain(marked)
})

/** Texts of plots that run into each other or out of their plot, as far as letters go and not their lines. */
function colliding(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    // Letters are lower than the box of their line.
    const LETTERS = 0.16
    const wrong: string[] = []
    for (const svg of document.querySelectorAll('figure.plot .picture svg')) {
      const around = svg.getBoundingClientRect()
      const picture = svg.parentElement
      if (picture === null || Math.abs(around.width - Math.floor(picture.clientWidth)) > 1) {
        wrong.push('a plot is not laid out')
      }
      const boxes = [...svg.querySelectorAll('text')].flatMap(text => {
        const parts = text.querySelectorAll('tspan').length > 0 ? [...text.querySelectorAll('tspan')] : [text]
        return parts.map(part => {
          const range = document.createRange()
          range.selectNodeContents(part)
          const { left, right, top, bottom } = range.getBoundingClientRect()
          const less = LETTERS * (bottom - top)
          return { said: part.textContent ?? '', left, right, top: top + less, bottom: bottom - less }
        })
      })
      boxes.forEach((a, index) => {
        const { left, right, top, bottom } = around
        if (a.left < left - 0.6 || a.right > right + 0.6 || a.top < top - 0.6 || a.bottom > bottom + 0.6) {
          wrong.push(`“${a.said}” leaves its plot`)
        }
        for (const b of boxes.slice(index + 1)) {
          const along = Math.min(a.right, b.right) - Math.max(a.left, b.left)
          const down = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)
          if (along > 0.6 && down > 0.6) wrong.push(`“${a.said}” and “${b.said}”`)
        }
      })
    }
    return wrong
  })
}
