// Worksheets and answer sheets, read back from what a printer gets.

import AxeBuilder from '@axe-core/playwright'
import jsQr from 'jsqr'
import { PNG } from 'pngjs'
import type { Page } from '@playwright/test'
import { lesson } from './engine'
import { expect, open, test } from './page'
import { squeezed, textOfPages } from './pdf-text'
import { taught } from './lesson-for-class'
import { packed } from './lesson-sample'

const SEED = 7

const marksOf = (seed: number, responses: unknown[] = []) => lesson({ lesson: taught, seed, responses })

async function openSheets(page: Page, view: string, hash = packed(taught, `?seed=${SEED}&view=${view}`)) {
  await open(page, hash)
  await expect(page.locator('.lesson-paper[data-done="true"]')).toBeVisible({ timeout: 60_000 })
}

async function printed(page: Page, format = 'A4'): Promise<string[]> {
  return textOfPages(await page.pdf({ format }))
}

/** What is right and what is said of it: nothing of this is for learners yet. */
function toldToTrainers(): string[] {
  const keys = marksOf(SEED).steps.map(({ key }, at) => {
    const { kind } = taught.steps[at] ?? {}
    // Ways, cases and parts stand on a worksheet too, as what there is to choose from.
    return kind === 'number' || kind === 'magnitude' ? (key?.text ?? '') : ''
  })
  const said = taught.steps.flatMap(step => ('because' in step ? [step.because, step.note] : []))
  return [...keys.filter(Boolean), ...said, taught.note]
}

test('a worksheet asks everything, and tells nothing that is right', async ({ page }) => {
  await openSheets(page, 'sheet')
  for (const format of ['A4', 'Letter']) {
    const pages = await printed(page, format)
    expect(pages.length).toBeGreaterThan(1)
    const all = pages.join('')
    const asked = [
      ...taught.steps.flatMap(({ title, text }) => [title, text]),
      ...[
        'Name',
        'Date',
        'Lead length',
        'A high input',
        'A middling input',
        'A very long lead',
        'A line input',
        'certain',
      ],
      marksOf(SEED).dealt.drawn['lead_length'] ?? 'nothing was dealt',
      ...(marksOf(SEED).dealt.steps[6]?.ways.map(({ name }) => name) ?? []),
    ]
    for (const text of asked) expect(all).toContain(squeezed(text))
    for (const text of toldToTrainers()) expect(all).not.toContain(squeezed(text))
    for (const one of pages) {
      expect(one).toContain(squeezed(`Lesson taught, revision 3, values ${SEED}`))
      expect(one).toContain(squeezed(taught.title))
    }
    // Only the sheet is on paper.
    expect(all).not.toContain('Settings')
    expect(all).not.toContain(squeezed('a class, each with other values'))
  }
  const dom = squeezed(await page.locator('.lesson-sheet').evaluate(sheet => sheet.outerHTML.replaceAll('&nbsp;', '')))
  for (const text of toldToTrainers()) expect(dom).not.toContain(squeezed(text))
})

test('a curve is drawn on empty axes, and what is measured is printed', async ({ page }) => {
  await openSheets(page, 'sheet')
  const curve = page.locator('[data-step="4"]')
  await expect(curve.locator('svg .grid line').first()).toBeAttached()
  await expect(curve.locator('.curve')).toHaveCount(0)
  const rows = page.locator('[data-step="8"] .lesson-measures tbody tr')
  await expect(rows).toHaveCount(2)
  for (const row of await rows.all()) {
    await expect(row.locator('td').nth(0)).toHaveText(/\d|none/)
    await expect(row.locator('td').nth(2)).toHaveText('')
  }
})

test('an answer sheet has keys, bounds, working, curves and notes, marked for the trainer', async ({ page }) => {
  await openSheets(page, 'sheet')
  await page.getByRole('link', { name: 'Answer sheet' }).click()
  await expect(page.locator('.lesson-paper[data-view="answers"][data-done="true"]')).toBeVisible({ timeout: 60_000 })
  await expect(page.getByText('anything in a browser can be read')).toBeVisible()
  const pages = await printed(page)
  const all = pages.join('')
  for (const text of toldToTrainers()) expect(all).toContain(squeezed(text))
  for (const one of pages) {
    expect(one).toContain(squeezed('For the trainer: answer sheet'))
    expect(one).toContain(squeezed(`values ${SEED}`))
  }
  const [from, to] = marksOf(SEED).steps[2]?.key?.full ?? []
  const decibels = (value = NaN) => `${value.toFixed(1)} dB`.replace('-', '−')
  expect(all).toContain(squeezed(`full credit from ${decibels(from)} to ${decibels(to)}`))
  await expect(page.locator('[data-step="4"] path.curve').first()).toBeAttached()
  const { drawn } = marksOf(SEED).dealt
  expect(pages[0]).toContain(squeezed(`Lead length ${drawn['lead_length']}`))
})

const answersTo = (id: string) => `#1/lesson/${id}?seed=${SEED}&view=answers`

test('the working is that of what is asked for, in few figures, or there is none', async ({ page }) => {
  await openSheets(page, 'answers', answersTo('passive-bass'))
  const working = (step: number) => page.locator(`[data-step="${step}"] .lesson-working li`)
  // Of an impedance at one frequency and of a corner the calculator shows no formula.
  for (const step of [2, 3, 4]) await expect(working(step)).toHaveCount(0)
  await expect(working(5)).toHaveText([/^Capacitance on the coil: C_t = /, /^Resonance without losses: f_0 = /])
  await expect(working(6)).toHaveText(/R_L′ = n\^2·R_L/)
  // The ratio is dealt, and no other place tells it.
  await expect(page.locator('.lesson-sheet header [data-field="ratio"]')).toHaveText(/Turns ratio.*\d+:1/)
  await page.getByLabel('with working').uncheck()
  await expect(page.locator('.lesson-working')).toHaveCount(0)
})

test('each line of a working is taken up by one below it, and the last is what is asked for', async ({ page }) => {
  await openSheets(page, 'answers', answersTo('levels'))
  for (const step of [2, 4, 6, 8]) {
    const lines = await page.locator(`[data-step="${step}"] .lesson-working li`).allTextContents()
    expect(lines.length).toBeGreaterThan(0)
    const formulas = lines.map(line => line.slice(line.lastIndexOf(': ', line.indexOf(' = ')) + 2).split(' = '))
    for (const [at, [symbol = 'no symbol']] of formulas.entries()) {
      const below = formulas.slice(at + 1).map(([, formula]) => formula ?? '')
      if (below.length > 0) expect(below.some(formula => formula.split(/[\s·/()|]+/).includes(symbol))).toBe(true)
    }
    const result = formulas.at(-1)?.at(-1) ?? 'no result'
    const [figures = 'no figures'] = /[\d.]+/.exec(result) ?? []
    await expect(page.locator(`[data-step="${step}"] .lesson-key`)).toContainText(figures)
    for (const [number] of lines.join(' ').matchAll(/\d+\.\d+/g)) {
      expect(number.replace(/^[0.]+/, '').replace('.', '').length).toBeLessThanOrEqual(3)
    }
  }
})

test('a class has one answer sheet: what is told once, and a table of all sheets', async ({ page }) => {
  await openSheets(page, 'answers')
  await page.getByRole('radio', { name: 'a class, each with other values' }).check()
  const rows = page.locator('.lesson-keys tbody tr')
  await expect(rows).toHaveCount(12)
  await expect(page.locator('.lesson-paper[data-done="true"]')).toBeVisible({ timeout: 60_000 })
  const pages = await printed(page)
  expect(pages.length).toBeLessThan(6)
  const all = pages.join('')
  for (const text of taught.steps.flatMap(step => ('because' in step ? [step.because, step.note] : []))) {
    expect(all.split(squeezed(text))).toHaveLength(2)
  }
  for (const seed of [SEED, SEED + 5, SEED + 11]) {
    const { dealt, steps } = marksOf(seed)
    const row = page.locator(`.lesson-keys tr[data-seed="${seed}"]`)
    await expect(row.locator('th')).toHaveText(`${seed}`)
    await expect(row.locator('[data-field="lead_length"]')).toHaveText(dealt.drawn['lead_length'] ?? 'none')
    for (const step of [3, 5]) {
      await expect(row.locator(`[data-step="${step}"] strong`)).toHaveText(steps[step - 1]?.key?.text ?? 'no key')
    }
    // A fault is another one from sheet to sheet.
    await expect(row.locator('[data-step="8"]')).toContainText(steps[7]?.key?.text ?? 'no key')
  }
  // What is so on every sheet does not stand in each row.
  await expect(page.locator('.lesson-keys-alike [data-step="7"]')).toContainText(
    'Into the combo → Into the mixer → Into the recorder',
  )
})

test('a class sheet names a doubt as the editor does, and a step without a title by its place', async ({ page }) => {
  const tied = taught.steps.map(step =>
    'ways' in step ? { ...step, title: '', ways: step.ways.map(way => ({ ...way, values: { load_r: '1M' } })) } : step,
  )
  await openSheets(page, 'answers', packed({ ...taught, steps: tied }, `?seed=${SEED}&view=answers`))
  await page.getByRole('radio', { name: 'a class, each with other values' }).check()
  await expect(page.locator(`.lesson-keys tr[data-seed="${SEED}"] [data-step="7"] em`)).toHaveText('two ways tie')
  await expect(page.locator('.lesson-keys thead').getByText('7. Step 7')).toBeVisible()
})

test('a text that is not told in the language of the sheet says which it is in', async ({ page }) => {
  const steps = taught.steps.map((step, at) =>
    at === 2 ? { ...step, variants: { es: { text: '¿Cuánto?', note: 'Ojo con el nivel.' } } } : step,
  )
  const half = { ...taught, steps, variants: { es: { title: 'Una muestra' } } }
  const opened = (view: string) => packed(half, `?seed=${SEED}&step=3&view=${view}&language=es`)
  const step = page.locator('[data-step="3"]')

  await openSheets(page, 'answers', opened('answers'))
  await expect(page.locator('.lesson-sheet header h2')).toHaveText('Una muestra')
  await expect(page.locator('.lesson-sheet header h2')).not.toHaveAttribute('lang')
  await expect(page.locator('.lesson-sheet header').getByText('Bring a bass.').locator('..')).toHaveAttribute(
    'lang',
    'en',
  )
  await expect(step.locator('h3 [lang=en]')).toHaveText('Title level')
  await expect(step.locator('.lesson-text')).toHaveAttribute('lang', 'en')
  await expect(step.getByText('Ojo con el nivel.').locator('..')).not.toHaveAttribute('lang')

  await page.goto('about:blank')
  await openSheets(page, 'sheet', opened('sheet'))
  await expect(step.locator('.lesson-text')).toHaveText('¿Cuánto?')
  await expect(step.locator('.lesson-text')).not.toHaveAttribute('lang')
  await expect(page.locator('[data-step="4"] .lesson-text')).toHaveAttribute('lang', 'en')

  await page.goto('about:blank')
  await open(page, opened('notes'))
  await expect(page.locator('.lesson-notes h2')).toHaveAttribute('lang', 'en')
  await expect(page.getByText('Ojo con el nivel.').locator('..')).not.toHaveAttribute('lang')
})

for (const [view, count] of [
  ['sheet', 1],
  ['answers', 1],
  ['answers', 12],
] as const) {
  test(`no heading stands alone at the foot of a page: ${view}, ${count}`, async ({ page }) => {
    test.setTimeout(180_000)
    for (const id of ['passive-bass', 'levels', 'hum']) {
      await page.goto('about:blank')
      await openSheets(page, view, `#1/lesson/${id}?seed=${SEED}&view=${view}`)
      if (count > 1) {
        await page.getByRole('radio', { name: 'a class, each with other values' }).check()
        await expect(page.locator('.lesson-keys tbody tr')).toHaveCount(count)
        await expect(page.locator('.lesson-paper[data-done="true"]')).toBeVisible({ timeout: 60_000 })
      }
      const titles = await page.locator('.lesson-sheet-step h3').evaluateAll(all => all.map(one => one.textContent))
      expect(titles.length).toBeGreaterThan(8)
      const heads = [...titles.map(squeezed), squeezed('Notes for the trainer')]
      for (const format of ['A4', 'Letter']) {
        for (const one of await printed(page, format)) {
          // The foot tells the lesson, and stands behind what is on the page.
          const [, above = ''] =
            /^(.*?)(?:Forthetrainer:answersheet·[^·]*)?Lesson[\w-]+,revision/s.exec(one.normalize('NFKC')) ?? []
          expect(above.length).toBeGreaterThan(100)
          for (const head of heads) expect(above.endsWith(head.normalize('NFKC'))).toBe(false)
        }
      }
    }
  })
}

test('a class of three gets three sheets, each with its values and from a page of its own', async ({ page }) => {
  await openSheets(page, 'sheet')
  await page.getByRole('radio', { name: 'a class, each with other values' }).check()
  await page.getByLabel('Learners').fill('3')
  await page.getByLabel('Learners').press('Tab')
  await expect(page.locator('.lesson-sheet')).toHaveCount(3)
  await expect(page.locator('.lesson-paper[data-done="true"]')).toBeVisible({ timeout: 60_000 })
  const seeds = [SEED, SEED + 1, SEED + 2]
  const pages = await printed(page)
  const seedOf = (one: string) => seeds.filter(seed => one.includes(`values${seed}·`))
  for (const one of pages) expect(seedOf(one)).toHaveLength(1)
  const lengths = seeds.map(seed => marksOf(seed).dealt.drawn['lead_length'] ?? '')
  expect(new Set(lengths).size).toBeGreaterThan(1)
  for (const [at, seed] of seeds.entries()) {
    const own = pages.filter(one => seedOf(one)[0] === seed)
    expect(own[0]).toContain('Date')
    expect(own.join('')).toContain(squeezed(`Lead length ${lengths[at]}`))
  }
  // The answers are for the same class.
  await page.getByRole('link', { name: 'Answer sheet' }).click()
  await expect(page.locator('.lesson-paper[data-view="answers"][data-done="true"]')).toBeVisible({ timeout: 60_000 })
  const rows = page.locator('.lesson-keys tbody tr')
  const kept = await rows.evaluateAll(all => all.map(one => one.getAttribute('data-seed')))
  expect(kept).toEqual(seeds.map(String))
})

for (const [name, hash] of [
  ['that ships', `#1/lesson/passive-bass?seed=${SEED}&view=sheet`],
  ['in its own link', packed(taught, `?seed=${SEED}&view=sheet`)],
] as const) {
  test(`the code in the foot leads to the lesson with the same values: one ${name}`, async ({ page }) => {
    await openSheets(page, 'sheet', hash)
    await page.emulateMedia({ media: 'print' })
    const code = page.getByRole('img', { name: 'QR code of the lesson' })
    // Large enough that each of its many squares has pixels to spare.
    await page.setViewportSize({ width: 1500, height: 1500 })
    let read = ''
    // The reader finds small codes best when they are small, and dense ones when they are large.
    for (const size of ['700px', '1400px']) {
      await code.evaluate((svg, size) => {
        Object.assign((svg as SVGElement).style, { position: 'fixed', inset: 0, width: size, height: size })
      }, size)
      const { data, width, height } = PNG.sync.read(await code.screenshot())
      read ||= jsQr(new Uint8ClampedArray(data), width, height)?.data ?? ''
    }
    expect(read).toBe(page.url().replace(/\?.*/, `?seed=${SEED}`))
  })
}

test('a number from a foot brings back its sheet', async ({ page }) => {
  await openSheets(page, 'answers')
  await page.getByLabel('Values (number in the foot)').fill('4242')
  await page.getByLabel('Values (number in the foot)').press('Enter')
  await expect(page.locator('.lesson-sheet')).toHaveAttribute('data-seed', '4242')
  await expect(page).toHaveURL(/seed=4242.*view=answers/)
  const right = marksOf(4242).steps[4]?.key?.text ?? 'no key'
  await expect(page.locator('[data-step="5"] .lesson-key')).toContainText(right.replaceAll('\u00a0', ' '))
})

for (const view of ['sheet', 'answers']) {
  for (const width of [360, 1440]) {
    test(`nobody is kept out, and nothing is wider than the screen: ${view}, ${width}`, async ({ page }) => {
      await page.setViewportSize({ width, height: 740 })
      await openSheets(page, view)
      const { violations } = await new AxeBuilder({ page }).analyze()
      expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    })
  }
}
