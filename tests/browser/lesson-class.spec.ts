// A lesson in front of a class: on a wall, and what learners hand in afterwards.

import AxeBuilder from '@axe-core/playwright'
import { readFile } from 'node:fs/promises'
import { deflateRawSync } from 'node:zlib'
import jsQr from 'jsqr'
import { PNG } from 'pngjs'
import type { Page } from '@playwright/test'
import { lesson } from './engine'
import { expect, open, setting, test } from './page'
import { taught } from './lesson-for-class'
import { packed } from './lesson-sample'
import { HALF_ANSWERABLE, UNANSWERABLE } from './lessons'
import { faultsOf } from '../fixtures/xapi-rules.mjs'
import type { Statement } from './record-store'

const SEED = 7

const marksOf = (seed: number, responses: unknown[] = []) => lesson({ lesson: taught, seed, responses })
const RESONANCE = 5
const FAULT = 8

const wall = (step: number) => packed(taught, `?seed=${SEED}&step=${step}&view=class`)
const right = (step: number) => (marksOf(SEED).steps[step - 1]?.key?.text ?? 'no key').replaceAll('\u00a0', ' ')

async function openWall(page: Page, step = RESONANCE) {
  await open(page, wall(step))
  await expect(page.locator('.lesson-slide h2')).toHaveText(taught.steps[step - 1]?.title ?? '')
}

test('keys go on and back, reveal, show notes and blank the screen; nothing is committed', async ({ page }) => {
  await openWall(page)
  const slide = page.locator('.lesson-slide')
  const html = async () =>
    (await page.locator('main').evaluate(main => main.outerHTML)).replaceAll(/&nbsp;|\u00a0/g, ' ')
  expect(await html()).not.toContain(right(RESONANCE))
  expect(await html()).not.toContain('Because the resonance')
  await page.keyboard.press('n')
  await expect(page.getByText('Mind the resonance in class.')).toBeVisible()
  // The notes on the wall are read by the class.
  expect(await html()).not.toContain(right(RESONANCE))
  await page.keyboard.press('n')
  await expect(page.getByText('Mind the resonance in class.')).toHaveCount(0)

  await page.keyboard.press(' ')
  await expect(slide.locator('.lesson-key')).toContainText(right(RESONANCE))
  await expect(slide).toContainText('Because the resonance is so.')
  await page.keyboard.press(' ')
  await expect(slide.locator('.lesson-key')).toHaveCount(0)

  await page.keyboard.press('ArrowLeft')
  await expect(slide.locator('h2')).toHaveText('Title curve')
  await expect(slide.locator('.curve')).toHaveCount(0)
  await page.keyboard.press(' ')
  await expect(slide.locator('path.curve').first()).toBeAttached()
  await page.keyboard.press('ArrowRight')
  await page.keyboard.press('ArrowRight')
  await expect(slide.locator('h2')).toHaveText('Title drawer')

  await page.keyboard.press('p')
  await expect(page.locator('.lesson-blank')).toHaveCSS('background-color', 'rgb(0, 0, 0)')
  await page.keyboard.press('p')
  await expect(page.locator('.lesson-blank')).toHaveCount(0)

  const kept = await page.evaluate(() => localStorage.getItem('stageohm.lesson-runs') ?? '[]')
  expect(kept).not.toContain('true')
})

test('every key has a button', async ({ page }) => {
  await openWall(page)
  const button = (name: string) => page.locator('.lesson-class').getByRole('button', { name, exact: true })
  await button('Reveal').click()
  await expect(page.locator('.lesson-slide .lesson-key')).toContainText(right(RESONANCE))
  await button('Next').click()
  await expect(page.locator('.lesson-slide h2')).toHaveText('Title drawer')
  await button('Back').click()
  await button('Notes').click()
  await expect(page.getByText('Mind the resonance in class.')).toBeVisible()
  await button('Blank screen').click()
  await expect(button('Show the lesson again')).toBeFocused()
  await button('Show the lesson again').click()
  await expect(page.locator('.lesson-blank')).toHaveCount(0)
  await expect(button('Blank screen')).toBeFocused()
})

test('a fault shows what was measured before it shows what is wrong', async ({ page }) => {
  await openWall(page, FAULT)
  const slide = page.locator('.lesson-slide')
  const row = slide.locator('.lesson-measures tbody tr').filter({ hasText: 'Level at 1 kHz' })
  const [is, usual] = [row.locator('td').nth(0), row.locator('td').nth(1)]
  await expect(usual).toHaveText(/\d\sdB/)
  await expect(is).toHaveText('')
  const button = page.locator('[data-deed="reveal"]')
  await expect(button).toContainText('Show readings')
  await page.keyboard.press(' ')
  await expect(is).toHaveText(/\d\sdB/)
  await expect(slide.locator('.lesson-key')).toHaveCount(0)
  await expect(slide).toContainText('A very long lead')
  await expect(slide).not.toContainText('Because the fault')
  await expect(button).toContainText('Reveal')
  await page.keyboard.press(' ')
  await expect(slide.locator('.lesson-key')).toContainText(right(FAULT))
  await expect(is).toHaveText(/\d\sdB/)
  await expect(button).toContainText('Hide')
  await page.keyboard.press(' ')
  await expect(slide.locator('.lesson-key')).toHaveCount(0)
  await expect(is).toHaveText('')
})

test('readings on the wall follow the settings', async ({ page }) => {
  await openWall(page, FAULT)
  await page.keyboard.press(' ')
  const read = page.locator('.lesson-slide .lesson-measures tbody tr').filter({ hasText: 'Level at 1 kHz' })
  await expect(read.locator('td').nth(0)).toHaveText(/\d\.\d\sdB/)
  await setting(page, '1,5 comma')
  await expect(read.locator('td').nth(0)).toHaveText(/\d,\d\sdB/)
  await expect(read.locator('td').nth(1)).toHaveText(/\d,\d\sdB/)
})

for (const [width, height] of [
  [1440, 900],
  [1280, 720],
] as const) {
  test(`a step is one screen, whatever of it is uncovered: ${width} by ${height}`, async ({ page }) => {
    test.setTimeout(180_000)
    await page.setViewportSize({ width, height })
    for (const id of ['passive-bass', 'levels', 'hum']) {
      await page.goto('about:blank')
      await open(page, `#1/lesson/${id}?seed=${SEED}&step=1&view=class`)
      const slide = page.locator('.lesson-slide')
      const next = page.locator('[data-deed="next"]')
      for (let isLast = false; !isLast; await page.keyboard.press('ArrowRight')) {
        isLast = (await next.getAttribute('aria-disabled')) === 'true'
        for (const uncovered of ['nothing', 'readings', 'answer']) {
          if ((await slide.getAttribute('data-uncovered')) !== uncovered) continue
          if (uncovered === 'answer' && (await slide.getAttribute('data-kind')) !== 'read') {
            await expect(slide.locator('.lesson-key')).toBeVisible()
          }
          const over = async () => {
            const ends = await slide
              .locator('> div')
              .evaluateAll(halves => halves.map(half => half.getBoundingClientRect().bottom))
            const { y } = (await page.locator('.lesson-class-ways').boundingBox()) ?? { y: NaN }
            return Math.max(...ends) <= y + 1 && y < height
          }
          await expect
            .poll(over, { message: `${id}, ${await slide.locator('h2').textContent()}, ${uncovered}` })
            .toBe(true)
          await page.keyboard.press(' ')
        }
      }
    }
  })
}

test('what there is to choose from stands beside the question', async ({ page }) => {
  for (const [step, what] of [
    [6, 'A high input'],
    [7, 'Into the combo'],
    [FAULT, 'A very long lead'],
  ] as const) {
    await page.goto('about:blank')
    await openWall(page, step)
    const box = await page.locator('.lesson-slide').getByText(what).first().boundingBox()
    expect(box?.x).toBeGreaterThan((page.viewportSize()?.width ?? Infinity) / 2)
  }
})

test('single keys can be switched off, and stay off', async ({ page }) => {
  await openWall(page)
  await page.getByLabel('single keys').uncheck()
  for (const again of [false, true]) {
    if (again) await page.reload()
    await expect(page.getByLabel('single keys')).not.toBeChecked()
    await page.locator('.lesson-slide h2').focus()
    for (const key of ['n', 'p', ' ', 'ArrowRight']) await page.keyboard.press(key)
    await expect(page.locator('.lesson-slide h2')).toHaveText('Title resonance')
    await expect(page.locator('.lesson-note, .lesson-blank, .lesson-key')).toHaveCount(0)
  }
})

test('the notes in a window of their own follow the wall, and lead it', async ({ page }) => {
  await openWall(page)
  const opening = page.waitForEvent('popup')
  await page.getByRole('button', { name: 'Notes in a window' }).click()
  const notes = await opening
  await expect(notes.getByText('Mind the resonance in class.')).toBeVisible({ timeout: 30_000 })
  await expect(notes.locator('.lesson-key')).toContainText(right(RESONANCE))
  await page.keyboard.press('ArrowRight')
  await expect(notes.getByText('Mind the drawer in class.')).toBeVisible()
  await notes.getByRole('button', { name: 'Reveal' }).click()
  await expect(page.locator('.lesson-slide .lesson-key')).toBeVisible()
  await notes.getByRole('button', { name: 'Back' }).click()
  await expect(page.locator('.lesson-slide h2')).toHaveText('Title resonance')
  // The wall is found again once it was loaded anew.
  await page.reload()
  await expect(page.locator('.lesson-slide h2')).toBeVisible()
  await notes.getByRole('button', { name: 'Next' }).click()
  await expect(page.locator('.lesson-slide h2')).toHaveText('Title drawer')
  await expect(notes.getByText('Mind the drawer in class.')).toBeVisible()
  const { violations } = await new AxeBuilder({ page: notes }).analyze()
  expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([])
})

for (const width of [360, 1440]) {
  test(`a wall keeps nobody out, and nothing is wider than it: ${width}`, async ({ page }) => {
    await page.setViewportSize({ width, height: 740 })
    for (const step of [RESONANCE, FAULT]) {
      await page.goto('about:blank')
      await openWall(page, step)
      if (step === FAULT) await page.getByRole('button', { name: 'Show readings' }).click()
      await page.getByRole('button', { name: 'Reveal' }).click()
      await expect(page.locator('.lesson-slide .lesson-key')).toBeVisible()
      const { violations } = await new AxeBuilder({ page }).analyze()
      expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    }
  })
}

const responses = [
  null,
  { decade: 2, sure: 3 },
  { text: '-11 dB', sure: 2 },
  null,
  { text: '3 kHz', sure: 1, hints: 0 },
  { parts: { load_r: '1M' }, sure: 3 },
  null,
  { case: 2, measured: ['peak'], sure: 2 },
]

function result(name: string, changed: object = {}) {
  const points = marksOf(SEED, responses).marked.map(one => (one === null ? null : one.points))
  const { id, revision } = taught
  return {
    stageohm: 'lesson-result',
    version: 1,
    lesson: { id, revision },
    seed: SEED,
    name,
    responses,
    points,
    ...changed,
  }
}

const json = (name: string, content: unknown) => ({
  name,
  mimeType: 'application/json',
  buffer: Buffer.from(typeof content === 'string' ? content : JSON.stringify(content)),
})

async function hand(page: Page, files: ReturnType<typeof json>[]) {
  await page.locator('input[type="file"][multiple]').setInputFiles(files)
  await expect(page.getByRole('status').filter({ hasText: /^New:/ })).toBeVisible()
  await expect(page.locator('.lesson-collect[data-done="true"]')).toBeVisible()
}

async function openCollection(page: Page, lesson: object = taught) {
  await open(page, '#1/lesson')
  await page.getByRole('link', { name: 'Collect results' }).click()
  await page.locator('input[type="file"]:not([multiple])').setInputFiles(json('lesson.json', lesson))
  await expect(page.getByText('The lesson is there now')).toBeVisible()
}

const row = (page: Page, name: string) =>
  page.locator('.lesson-results tbody tr').filter({ has: page.getByRole('rowheader', { name, exact: true }) })

test('results are marked again here, and whatever is odd about a file is told', async ({ page }) => {
  await openCollection(page)
  const foreign = { lesson: { id: 'teleport', revision: 1 }, points: [] }
  await hand(page, [
    json('ann.json', result('Ann')),
    json('bob.json', result('Bob', { points: [null, 1, 2, 3, 2, 3, 2, 2] })),
    json('cleo.json', result('Cleo', { lesson: { id: 'taught', revision: 2 } })),
    json('dan.json', result('Dan')),
    json('dan-2.json', result(' dan ', { responses: [null, { decade: 1 }], points: [null, 0] })),
    json('eve.json', result('Eve', { responses: [null, { decade: 'many' }, { curve: 'x' }], points: [] })),
    json('fay.json', result('Fay', foreign)),
    json('large.json', result('Large', { more: 'x'.repeat(70_000) })),
    json('text.json', 'no JSON at all'),
    json('show.json', { stageohm: 'show', version: 1 }),
    json('newer.json', result('Newer', { version: 2 })),
    json('holes.json', result('Holes', { seed: 'seven' })),
    json('holes-2.json', result('Holes', { responses: [1, 2] })),
  ])
  await expect(page.getByRole('status').filter({ hasText: 'New: 13. There already: 0.' })).toBeVisible()

  const { marked } = marksOf(SEED, responses)
  const worth = marked.reduce((sum, one) => sum + (one?.points ?? 0), 0)
  const of = taught.steps.reduce((sum, step) => sum + ('points' in step ? step.points : 0), 0)
  expect(worth).toBeGreaterThan(0)
  expect(worth).toBeLessThan(of - 3)
  const total = `${Math.round(worth * 10) / 10} of ${of} points`
  await expect(row(page, 'Ann')).toContainText(total)
  await expect(row(page, 'Ann')).toHaveAttribute('data-notes', '')
  await expect(row(page, 'Ann')).toContainText('certain:')

  await expect(row(page, 'Bob')).toContainText(total)
  await expect(row(page, 'Bob').locator('[data-note="forged"]')).toContainText('The file says 15 points')
  await expect(row(page, 'Cleo').locator('[data-note="stale"]')).toContainText('revision 2')
  await expect(row(page, 'Cleo')).not.toContainText(total)
  await expect(page.locator('[data-note="twice"]')).toHaveCount(2)
  await expect(row(page, 'Eve').locator('[data-note="unreadable"]')).toBeVisible()
  await expect(row(page, 'Fay').locator('[data-note="unknown"]')).toContainText('teleport')

  const unread = page.locator('.lesson-unread li')
  await expect(unread).toHaveCount(6)
  for (const [file, why] of [
    ['large.json', 'large'],
    ['text.json', 'no-json'],
    ['show.json', 'foreign'],
    ['newer.json', 'newer'],
    ['holes.json', 'damaged'],
    ['holes-2.json', 'damaged'],
  ]) {
    await expect(unread.filter({ hasText: file ?? '' }).first()).toHaveAttribute('data-why', why ?? '')
  }

  // The same file again is there already; nothing is lost on reload.
  await hand(page, [json('ann.json', result('Ann'))])
  await expect(page.getByRole('status').filter({ hasText: 'New: 0. There already: 1.' })).toBeVisible()
  await page.reload()
  await expect(row(page, 'Ann')).toHaveCount(1)
  await expect(page.locator('.lesson-unread li')).toHaveCount(6)

  const { violations } = await new AxeBuilder({ page }).analyze()
  expect(violations.map(({ id, nodes }) => [id, nodes[0]?.html])).toEqual([])
})

test('sorted, summed up by step, saved as CSV and cleared', async ({ page }) => {
  await openCollection(page)
  const wrong = responses.map((one, at) => (at === 5 ? { parts: { load_r: '47k' }, sure: 1 } : one))
  await hand(page, [
    json('=low.json', result('=Zoe', { responses: wrong, points: [] })),
    json('best.json', result('Abe')),
  ])
  const names = page.locator('.lesson-results tbody th')
  await expect(names).toHaveText(['=Zoe', 'Abe'])
  await page.getByRole('button', { name: 'Total' }).click()
  const points = (of: typeof responses) => marksOf(SEED, of).marked.reduce((sum, one) => sum + (one?.points ?? 0), 0)
  expect(points(responses)).toBeGreaterThan(points(wrong))
  await expect(names).toHaveText(['Abe', '=Zoe'])
  await expect(page.getByRole('columnheader', { name: 'Total' })).toHaveAttribute('aria-sort', 'descending')

  const drawer = page.locator('.lesson-summary li').filter({ hasText: 'Title drawer' })
  await expect(drawer).toContainText('answered by 2 of 2')

  const waiting = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save as CSV' }).click()
  const saved = await readFile(await (await waiting).path(), 'utf8')
  const lines = saved.trim().split('\r\n')
  expect(lines).toHaveLength(3)
  expect(lines[0]).toContain('Lesson,Revision,Name,Values,Total')
  // A name is no formula of a spreadsheet.
  expect(lines[1]).toContain("taught,3,'=Zoe,7,")
  expect(lines[1]).toContain("'=low.json")

  await page.getByRole('button', { name: 'Clear the collection' }).click()
  await page.getByRole('button', { name: 'Really clear it?' }).click()
  await expect(names).toHaveCount(0)
  await page.reload()
  await expect(page.getByRole('heading', { name: 'Collect results' })).toBeVisible()
  await expect(names).toHaveCount(0)
})

test('saved as xAPI statements, of whoever could be marked, each once', async ({ page }) => {
  await openCollection(page)
  const zoe = result('Zoe')
  await hand(page, [
    json('zoe.json', zoe),
    json('zoe again.json', zoe),
    json('kim.json', result('Kim', { lesson: { id: 'nobody-knows-it', revision: 1 } })),
  ])
  await expect(page.locator('.lesson-results tbody th')).toHaveText(['Zoe', 'Zoe', 'Kim'])
  const waiting = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save as xAPI statements' }).click()
  const saved = await waiting
  expect(saved.suggestedFilename()).toMatch(/^stageohm-results-xapi-[\d-]+\.json$/)
  const statements = JSON.parse(await readFile(await saved.path(), 'utf8')) as Statement[]
  expect(statements.map(faultsOf).filter(faults => faults.length > 0)).toEqual([])
  const { marked } = marksOf(SEED, responses)
  const steps = marked.flatMap((one, at) => (one === null ? [] : [at]))
  const answered = statements.filter(({ verb }) => verb.id.endsWith('/answered'))
  expect(answered.map(({ object }) => object.id)).toEqual(
    steps.map(at => `urn:stageohm:lesson:lesson-taught/step/${at + 1}`),
  )
  expect(answered.map(({ result }) => result?.score?.scaled)).toEqual(
    steps.map(at => expect.closeTo(marked[at]?.share ?? NaN, 6)),
  )
  const points = marked.reduce((sum, one) => sum + (one?.points ?? 0), 0)
  const share = points / taught.steps.reduce((sum, step) => sum + ('points' in step ? step.points : 0), 0)
  // Not all was answered, so nothing is completed.
  const outcomes = statements.slice(answered.length).map(({ verb, result }) => [verb.id.replace(/.*\//, ''), result])
  // All but one of the five answers are right: 9 of 15 points, and half of them pass.
  expect(outcomes).toEqual([['passed', { score: { scaled: expect.closeTo(share, 6) }, success: true }]])
  expect(share).toBeCloseTo(9 / 15, 2)
  expect(new Set(statements.map(({ id }) => id)).size).toBe(statements.length)
})

const LEVEL = 3
const saying = (text: string, more: object = {}) => [null, null, { text, sure: 3, ...more }]

test("what went wrong most often is told in nobody's figures, and whoever handed in twice counts once", async ({
  page,
}) => {
  await openCollection(page)
  const fault = (place: number) => [...Array<null>(7).fill(null), { case: place, measured: ['peak'], sure: 2 }]
  const { dealt, steps } = marksOf(SEED)
  const wrong = dealt.steps[7]?.cases.find(place => place !== steps[7]?.key?.case) ?? NaN
  await hand(page, [
    json('ann.json', result('Ann', { responses: saying('-40 dB'), points: [] })),
    json('bob.json', result('Bob', { responses: saying('-47.5 dB'), seed: SEED + 1, points: [] })),
    json('cy.json', result('Cy', { responses: saying('41 dB'), points: [] })),
    // The same learner with the same values, who has answered less.
    json('cy-2.json', result('cy', { responses: [], points: [] })),
    json('cy-3.json', result('CY', { responses: saying('42 dB').slice(0, 3), points: [] })),
    json('dee.json', result('Dee', { responses: fault(wrong), points: [] })),
  ])
  const level = page.locator('.lesson-summary li').nth(LEVEL - 2)
  await expect(level).toContainText('answered by 3 of 4')
  await expect(level.locator('[data-mistake]')).toHaveText('Most often (2): Too low.')
  const text = await page.locator('.lesson-summary').innerText()
  for (const figures of ['40', '47.5', '41', '42']) expect(text).not.toContain(figures)
  await expect(page.locator('[data-note="twice"]')).toHaveCount(3)
  const { name } = taught.steps.flatMap(step => ('cases' in step ? step.cases : []))[wrong] ?? { name: 'no case' }
  await expect(page.locator('.lesson-summary li').last()).toContainText(`Most often (1): Named instead: “${name}”`)
})

test('hints take points, and nothing from how right somebody was who was certain', async ({ page }) => {
  const steps = taught.steps.map((step, at) => (at === LEVEL - 1 ? { ...step, hints: ['One.', 'Two.'] } : step))
  const hinted = { ...taught, id: 'hinted', steps }
  await openCollection(page, hinted)
  const text = marksOf(SEED).steps[LEVEL - 1]?.key?.text ?? 'no key'
  await hand(page, [
    json('ann.json', result('Ann', { lesson: hinted, responses: saying(text, { hints: 2 }), points: [] })),
  ])
  await expect(row(page, 'Ann')).toContainText('certain: 100 %')
  const points = await row(page, 'Ann')
    .locator('td')
    .nth(2 + LEVEL - 1)
    .innerText()
  expect(Number(points)).toBeGreaterThan(0)
  expect(Number(points)).toBeLessThan(2)
})

test('a step without an answer is nobody’s mistake, and nobody fails where nothing is to be passed', async ({
  page,
}) => {
  // Half the voltage is 6.02 dB less.
  const said = ['3 dB', '6.02 dB'].map(text => ({ text, sure: 3 }))
  const of = (lesson: { id: string; revision: number }) => ({ lesson, responses: said, points: [null, 2] })
  const markless = { ...HALF_ANSWERABLE, id: 'markless', pass: undefined }
  for (const lesson of [markless, UNANSWERABLE, HALF_ANSWERABLE]) {
    await page.goto('about:blank')
    await openCollection(page, lesson)
  }
  await hand(page, [
    json('ann.json', result('Ann', of(HALF_ANSWERABLE))),
    json('bea.json', result('Bea', of(markless))),
    json('cid.json', result('Cid', { lesson: UNANSWERABLE, responses: said.slice(0, 1), points: [] })),
  ])
  const cells = (name: string) => row(page, name).locator('td')
  await expect(cells('Ann')).toHaveText(['7', '2 of 2 points (100 %)', 'yes', '–', '2', 'certain: 100 %', ''])
  await expect(cells('Bea')).toHaveText(['7', '2 of 2 points (100 %)', '–', '–', '2', 'certain: 100 %', ''])
  await expect(cells('Cid')).toHaveText(['7', '0 of 0 points (0 %)', '–', '–', '–', ''])
  const steps = page.locator('.lesson-results').first().locator('.lesson-summary li')
  await expect(steps.first()).toHaveText('How much? This step does not count.')
  await expect(steps.last()).toContainText('100 % right, answered by 1 of 1')

  const waiting = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save as CSV' }).click()
  const [, ...lines] = (await readFile(await (await waiting).path(), 'utf8')).trim().split('\r\n')
  expect(lines).toEqual([
    'half-answerable,3,Ann,7,2,2,yes,,2,,,100,,ann.json',
    'markless,3,Bea,7,2,2,,,2,,,100,,bea.json',
    'unanswerable,3,Cid,7,0,0,,,,,,,,cid.json',
  ])
})

test('points in the figures of a code are not called forged, others are under the sign of the reader', async ({
  page,
}) => {
  const steps = taught.steps.map((step, at) => (at === LEVEL - 1 ? { ...step, points: 123.45 } : step))
  const fractions = { ...taught, id: 'fractions', steps }
  const text = marksOf(SEED).steps[LEVEL - 1]?.key?.text ?? 'no key'
  const said = (points: number) => ({ lesson: fractions, responses: saying(text), points: [null, null, points] })
  await openCollection(page, fractions)
  await setting(page, '1,5 comma')
  // A code has four figures.
  await hand(page, [json('ann.json', result('Ann', said(123.5))), json('bob.json', result('Bob', said(100.5)))])
  await expect(row(page, 'Ann')).toHaveAttribute('data-notes', '')
  await expect(row(page, 'Bob')).toHaveAttribute('data-notes', 'forged')
  const waiting = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save as CSV' }).click()
  expect(await readFile(await (await waiting).path(), 'utf8')).toContain('The file says 100,5 points')
})

test('the code on the end screen of a learner brings the result to the trainer', async ({ page }) => {
  await open(page, packed(taught, `?seed=${SEED}&step=3`))
  await page.locator('.lesson-number input').fill('-11 dB')
  await page.getByRole('radio', { name: 'certain', exact: true }).check()
  await page.getByRole('button', { name: 'Commit' }).click()
  await expect(page.locator('.lesson-judged')).toBeVisible()
  await page.goto('about:blank')
  await open(page, packed(taught, `?seed=${SEED}&step=9`))
  await page.getByLabel('Nickname for the result').fill('Ida')
  await page.getByRole('button', { name: 'QR code of the result' }).click()
  const code = page.getByRole('img', { name: 'QR code of your result' })
  const { data, width, height } = PNG.sync.read(await code.screenshot())
  const link = jsQr(new Uint8ClampedArray(data), width, height)?.data ?? ''
  expect(link).toContain('#1/lesson/taught?result=')

  await openCollection(page)
  await page.goto('about:blank')
  await page.goto(link)
  const [, , level] = marksOf(SEED, [null, null, { text: '-11 dB' }]).marked
  await expect(row(page, 'Ida')).toContainText(`${Math.round((level?.points ?? NaN) * 10) / 10} of 15 points`)
  await expect(row(page, 'Ida')).toHaveAttribute('data-notes', '')
  await expect(page).toHaveURL(/#1\/lesson\/collect$/)
  // Opened once more it is no second result.
  await page.goto('about:blank')
  await page.goto(link)
  await expect(page.getByText('There already: 1.')).toBeVisible()
  await expect(row(page, 'Ida')).toHaveCount(1)

  // One that is cut short, and one that would unpack to far more than any result has.
  const bomb = deflateRawSync('0'.repeat(2 ** 24)).toString('base64url')
  for (const [at, broken] of [link.slice(0, -30), link.replace(/result=.*/, `result=${bomb}`)].entries()) {
    await page.goto('about:blank')
    await page.goto(broken)
    await expect(page.locator('.lesson-unread li')).toHaveCount(at + 1)
  }
  await expect(page.locator('.lesson-unread li').last()).toHaveAttribute('data-why', 'large')
  await expect(row(page, 'Ida')).toHaveCount(1)
})
