// A lesson as a learner has it: guess, then see; for fingers, keys and ears; nothing of
// the answer before, nothing lost after.

import AxeBuilder from '@axe-core/playwright'
import { readFile } from 'node:fs/promises'
import { deflateRawSync } from 'node:zlib'
import type { Page } from '@playwright/test'
import type { LessonResponse, Marked } from '../../www/generated/contract'
import { lesson } from './engine'
import { answerNumber } from './lesson-in-package'
import { packed, sample, stepOf } from './lesson-sample'
import { HALF_ANSWERABLE } from './lessons'
import { expect, open, setting, test } from './page'

const SEED = 1
const KINDS = ['magnitude', 'number', 'curve', 'target', 'fault', 'choice'] as const
type Kind = (typeof KINDS)[number]

const checks = lesson({ lesson: sample, seed: SEED }).steps

function at(kind: Kind): number {
  return sample.steps.findIndex(step => step.kind === kind)
}

function keyOf(kind: Kind) {
  const key = checks[at(kind)]?.key
  if (!key) throw new Error(`${kind} has no key`)
  return key
}

/** What the native engine makes of a response. */
function marked(kind: Kind, response: Partial<LessonResponse>): Marked {
  const responses = sample.steps.map((_, step) => (step === at(kind) ? response : null))
  const one = lesson({ lesson: sample, seed: SEED, responses }).marked[at(kind)]
  if (!one) throw new Error(`${kind} is not marked`)
  return one
}

function typed(text: string): string {
  return text.replaceAll('\u00a0', ' ').replaceAll('−', '-')
}

function stopsTyped(heights: (hz: number) => number): [number, number][] {
  return [50, 140, 420, 1200, 3500, 10_000].map(hz => [hz, Number(heights(hz).toFixed(1))])
}

/** The height of the right curve. */
function right(hz: number): number {
  const { curve } = keyOf('curve')
  const after = curve.findIndex(([x]) => x >= hz)
  const [[x0, y0], [x1, y1]] = [curve[after - 1] ?? [1, 0], curve[after] ?? [1, 0]] as const
  return y0 + ((y1 - y0) * Math.log(hz / x0)) / Math.log(x1 / x0)
}

/** Puts a response into the step on the screen. */
async function respond(page: Page, response: Partial<LessonResponse>): Promise<void> {
  const { text, decade, curve, parts, measured, order } = response
  await expect(page.locator('.lesson-answer')).toBeVisible()
  if (text !== undefined) await page.locator('.lesson-number input').fill(text)
  if (typeof decade === 'number') await page.locator(`.lesson-magnitude input[value="${decade}"]`).check()
  for (const [place, [, level]] of (curve ?? []).entries()) {
    await page.locator('.lesson-levels input').nth(place).fill(`${level}`)
  }
  for (const [field, value] of Object.entries(parts ?? {})) {
    const part = sample.steps[at('target')]?.drawer?.find(part => part.value === value)
    await page
      .locator(`[data-field="${field}"]`)
      .getByLabel(part?.name ?? '')
      .check()
  }
  for (const reading of measured ?? []) {
    await page.locator(`[data-reading="${reading}"] button`).click()
    await expect(page.locator(`[data-reading="${reading}"] strong`)).toBeVisible()
  }
  if (typeof response.case === 'number') {
    await page.getByLabel(sample.steps[at('fault')]?.cases?.[response.case]?.name ?? '').check()
  }
  for (const [place, id] of (order ?? []).entries()) {
    const ways = page.locator('.lesson-choice li')
    const now = await ways.evaluateAll((ways, id) => ways.findIndex(way => way.getAttribute('data-way') === id), id)
    for (let moves = now - place; moves > 0; moves--) {
      await page.locator(`[data-way="${id}"] .lesson-move`).first().click()
    }
  }
}

async function commit(page: Page, sure = 'fairly sure'): Promise<void> {
  await page.getByRole('radio', { name: sure }).check()
  const button = page.getByRole('button', { name: 'Commit' })
  await button.click()
  // As it was shuffled it may be right.
  if (await page.getByText('Commit again if this is your order').isVisible()) await button.click()
}

const wrongCase = sample.steps[at('fault')]?.cases?.findIndex((_, place) => place !== keyOf('fault').case) ?? 0

const RIGHT: Record<Kind, Partial<LessonResponse>> = {
  magnitude: { decade: Math.floor(Math.log10(keyOf('magnitude').value ?? 1)) },
  number: { text: typed(keyOf('number').text) },
  curve: { curve: stopsTyped(right) },
  target: { parts: { load_r: '1M' } },
  fault: { measured: ['level_1k', 'peak'], case: keyOf('fault').case },
  choice: { order: keyOf('choice').order.flat() },
}
const WRONG: Record<Kind, Partial<LessonResponse>> = {
  magnitude: { decade: 6 },
  number: { text: '-3 dB' },
  curve: { curve: stopsTyped(() => 0) },
  target: { parts: { lead_length: '3 m' } },
  fault: { measured: ['level_1k'], case: wrongCase },
  choice: { order: keyOf('choice').order.flat().reverse() },
}

for (const kind of KINDS) {
  for (const [name, response] of Object.entries({ right: RIGHT[kind], wrong: WRONG[kind] })) {
    test(`${kind}, answered ${name}, is worth what the core says`, async ({ page }) => {
      const { points, of, findings, plot } = marked(kind, response)
      if (name === 'wrong') expect(points).toBeLessThan(of)
      else expect(points).toBeGreaterThan(0.9 * of)
      await open(page, stepOf(kind, SEED))
      await respond(page, response)
      await commit(page)
      const judged = page.locator('.lesson-judged')
      await expect(judged.locator('h3').first()).toContainText(`Points: ${Math.round(10 * points) / 10} of ${of}`)
      await expect(judged.locator('.lesson-findings li')).toHaveText(findings.map(({ text }) => text))
      await expect(judged).toContainText('this is said after')
      for (const { id } of plot?.traces ?? []) await expect(judged.locator(`path[data-trace="${id}"]`)).toBeAttached()
    })
  }

  test(`${kind}: no trace of the answer before it is committed`, async ({ page }) => {
    await open(page, stepOf(kind, SEED))
    await expect(page.locator('.lesson-answer')).toBeVisible()
    const key = keyOf(kind)
    const { findings, key: own } = marked(kind, RIGHT[kind])
    // Names of parts, of faults and of ways are what there is to choose from.
    const isTold = ['target', 'fault', 'choice'].includes(kind)
    const secret = [
      'this is said after',
      ...findings.map(({ text }) => text),
      ...(isTold ? [] : [key.text, typed(key.text), key.value?.toPrecision(3) ?? key.text]),
    ]
    const before = await told(page)
    for (const text of secret) expect(before).not.toContain(text)
    expect(before).not.toContain('trainer-only')
    await expect(page.locator('path[data-trace]')).toHaveCount(0)
    if (kind === 'fault') expect(await page.locator('.lesson-fault label').evaluateAll(alike)).toBe(1)
    await respond(page, RIGHT[kind])
    await commit(page)
    await expect(page.locator('.lesson-judged')).toBeVisible()
    const after = await told(page)
    expect(after).toContain('this is said after')
    if (kind === 'choice') for (const name of own.text.split(/ [→=] /)) expect(after).toContain(name)
    else expect(after).toContain(own.text)
    expect(after).not.toContain('trainer-only')
  })

  test(`${kind}: nothing that axe finds, before and after`, async ({ page }) => {
    await open(page, stepOf(kind, SEED))
    await expect(page.locator('.lesson-answer')).toBeVisible()
    await axe(page)
    await respond(page, WRONG[kind])
    await page.emulateMedia({ colorScheme: 'dark' })
    await axe(page)
    await commit(page)
    await expect(page.locator('.lesson-judged')).toBeVisible()
    await axe(page)
    await setting(page, 'stage')
    await axe(page)
  })
}

/** All that stands in the page, attributes and properties that are typed included. */
function told(page: Page): Promise<string> {
  return page.evaluate(() => {
    const values = [...document.querySelectorAll('input')].map(({ value }) => value)
    return [document.documentElement.outerHTML.replaceAll('&nbsp;', '\u00a0'), ...values].join('\n')
  })
}

/** How many kinds of labels there are, but for their words. */
function alike(labels: Element[]): number {
  return new Set(labels.map(label => label.outerHTML.replace(/<span>.*<\/span>/, ''))).size
}

async function axe(page: Page): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).withRules(RULES).analyze()
  expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([])
  const { violations: others } = await new AxeBuilder({ page }).analyze()
  expect(others.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([])
}

const RULES = ['target-size']

test('the list, a step to read, one that is not known and the result: nothing that axe finds', async ({ page }) => {
  for (const hash of ['#1/lesson', stepOf('read'), stepOf('taste'), packed(sample, '?seed=1&step=9')]) {
    await open(page, hash)
    await expect(page.locator('.lessons, .lesson-step')).toBeVisible()
    await axe(page)
  }
})

test('terms open in place, what is stressed is, and a kind that is not known is skipped', async ({ page }) => {
  await open(page, stepOf('read'))
  await expect(page.locator('.lesson-text strong')).toHaveText('stressed')
  await expect(page.locator('.lesson-text > p')).toHaveCount(2)
  await page.locator('.lesson-text .term').click()
  await expect(page.locator('.term-text')).toContainText('loop')
  await open(page, stepOf('taste'))
  await expect(page.locator('.lesson-step')).toContainText('does not know this kind of step')
  await page.getByRole('button', { name: 'Result' }).click()
  await expect(page.locator('.lesson-end')).toBeVisible()
  await expect(page.locator('.lesson-points tbody tr')).toHaveCount(KINDS.length)
})

test('only what the author gives is shown of the rig', async ({ page }) => {
  await open(page, stepOf('number', SEED))
  const { drawn } = lesson({ lesson: sample, seed: SEED }).dealt
  await expect(page.locator('.lesson-given dd')).toHaveText([(drawn['lead_length'] ?? '').replace(' ', '\u00a0')])
  expect(await told(page)).not.toMatch(/10\s?kΩ|kohm|coil_l/)
})

test('what cannot be read is told beside the input, and nothing is committed', async ({ page }) => {
  await open(page, stepOf('number'))
  await respond(page, { text: '-3 V' })
  await page.getByRole('button', { name: 'Commit' }).click()
  await expect(page.locator('.lesson-commit [role=alert]')).toContainText('how sure')
  await commit(page)
  await expect(page.locator('.lesson-commit [role=alert]')).toContainText('V')
  await expect(page.locator('.lesson-judged')).toHaveCount(0)
  await respond(page, { text: '-3 dB' })
  await expect(page.locator('.lesson-commit [role=alert]')).toHaveText('')
})

test('parts over the budget are put back first', async ({ page }) => {
  await open(page, stepOf('target'))
  await respond(page, { parts: { load_r: '1M', lead_length: '3 m' } })
  await expect(page.locator('.lesson-cost')).toHaveAttribute('data-over', 'true')
  await commit(page)
  await expect(page.locator('.lesson-commit [role=alert]')).toContainText('budget')
  await expect(page.locator('.lesson-judged')).toHaveCount(0)
})

test('hints come one by one and cost what they say', async ({ page }) => {
  await open(page, stepOf('number', SEED))
  await expect(page.getByRole('button', { name: 'Hint 1 of 2 costs 20 %' })).toBeVisible()
  expect(await told(page)).not.toContain('the first hint')
  await page.getByRole('button', { name: 'Hint 1 of 2' }).click()
  await expect(page.locator('.lesson-hints')).toContainText('the first hint')
  expect(await told(page)).not.toContain('the second hint')
  // What was opened stays so.
  await page.reload()
  await expect(page.locator('.lesson-hints')).toContainText('the first hint')
  await respond(page, RIGHT.number)
  await commit(page)
  const { points, of } = marked('number', { ...RIGHT.number, hints: 1 })
  expect(points).toBeLessThan(of)
  await expect(page.locator('.lesson-judged h3').first()).toContainText(
    `Points: ${Math.round(10 * points) / 10} of ${of}`,
  )
})

test('what hints took is told, and how right one was does not count them', async ({ page }) => {
  await open(page, stepOf('number', SEED))
  await page.getByRole('button', { name: 'Hint 1 of 2' }).click()
  const hints = page.locator('.lesson-hints')
  await page.getByRole('button', { name: 'Hint 2 of 2' }).click()
  await expect(hints.locator('li').last()).toBeFocused()
  await expect(hints.getByRole('button')).toHaveCount(0)
  await respond(page, RIGHT.number)
  await commit(page, 'certain')
  await expect(page.locator('.lesson-judged h3').first()).toHaveText(
    'Right, with hints. Points: 1.2 of 2 (hints took 0.8)',
  )
  for (let step = at('number'); step < sample.steps.length; step++) await page.locator('.lesson-next').click()
  await expect(page.locator('.lesson-confidence li')).toContainText('100 % right')
})

test('a number half right with a hint is called partly right', async ({ page }) => {
  const text = typed(`${Number(keyOf('number').value?.toFixed(2)) + 4} dB`)
  const { share, before_hints: before, of } = marked('number', { text, hints: 1 })
  expect(before).toBeLessThan(1)
  await open(page, stepOf('number', SEED))
  await page.getByRole('button', { name: 'Hint 1 of 2' }).click()
  await respond(page, { text })
  await commit(page)
  const tenths = (points: number) => `${Math.round(10 * points) / 10}`
  await expect(page.locator('.lesson-judged h3').first()).toHaveText(
    `Partly right. Points: ${tenths(share * of)} of ${of} (hints took ${tenths((before - share) * of)})`,
  )
})

test('a number is shown as it was understood, before and after', async ({ page }) => {
  await open(page, stepOf('number', SEED))
  const read = page.locator('.lesson-read')
  await respond(page, { text: '-3 dB' })
  await expect(read).toHaveText('')
  // Rounded it is the same.
  await respond(page, { text: '-3.24 dB' })
  await page.waitForTimeout(800)
  await expect(read).toHaveText('')
  await respond(page, { text: '-3.24' })
  await expect(read).toHaveText(/^Read as −3\.2\sdB$/)
  await expect(page.locator('.lesson-number input')).toHaveAccessibleDescription(/Read as/)
  await commit(page)
  await expect(page.locator('[data-row=said] dd')).toHaveText(/^−3\.2\sdB$/)
})

test('what was measured stands beside what the named fault would read', async ({ page }) => {
  const rows = marked('fault', WRONG.fault).rows
  expect(rows.map(({ fits }) => fits)).toEqual([false])
  await open(page, stepOf('fault', SEED))
  await page.locator('.lesson-measures button').first().click()
  await expect(page.locator('.lesson-measures td').first()).toBeFocused()
  await respond(page, { case: wrongCase })
  await commit(page)
  const table = page.getByRole('table', { name: 'Measurements' })
  await expect(table.getByRole('columnheader').last()).toContainText(
    sample.steps[at('fault')]?.cases?.[wrongCase]?.name ?? '',
  )
  for (const [place, { name, is, other }] of rows.entries()) {
    const row = table.locator('tbody tr').nth(place)
    await expect(row.getByRole('rowheader')).toHaveText(name)
    await expect(row.getByRole('cell').first()).toHaveText(is)
    await expect(row.getByRole('cell').last()).toHaveText(`✗does not agree ${other}`)
  }
})

test('each limit stands beside what was reached, by sign and by word', async ({ page }) => {
  await open(page, stepOf('target', SEED))
  await respond(page, WRONG.target)
  await commit(page)
  const [row] = marked('target', WRONG.target).rows
  const shown = page.getByRole('table', { name: 'Limits' }).locator('tbody tr').first()
  await expect(shown).toContainText(row?.name ?? '')
  await expect(shown.getByRole('cell').first()).toHaveText('at least −2.0 dB')
  await expect(shown.getByRole('cell').last()).toHaveText(`✗missed ${row?.is}`)
  await expect(page.locator('[data-row=key]')).toContainText('One way: Active DI box')
})

test('the right order is one list, with figures and where each was put', async ({ page }) => {
  await open(page, stepOf('choice', SEED))
  await respond(page, WRONG.choice)
  await commit(page)
  const { rows } = marked('choice', WRONG.choice)
  const list = page.getByRole('list', { name: 'The right order' }).getByRole('listitem')
  await expect(list).toHaveCount(3)
  for (const [place, { name, is }] of rows.entries()) {
    await expect(list.nth(place)).toContainText(name)
    await expect(list.nth(place)).toContainText(is)
    await expect(list.nth(place)).toContainText(`you: ${3 - place}`)
    await expect(list.nth(place)).toContainText(place === 1 ? '✓right' : '✗wrong')
  }
})

test('the order as it was shuffled is asked about once', async ({ page }) => {
  await open(page, stepOf('choice', SEED))
  await page.getByRole('radio', { name: 'guessing' }).check()
  await page.getByRole('button', { name: 'Commit' }).click()
  await expect(page.locator('.lesson-commit [role=alert]')).toHaveText(
    'Put them in order first. Commit again if this is your order.',
  )
  await expect(page.locator('.lesson-judged')).toHaveCount(0)
  await page.getByRole('button', { name: 'Commit' }).click()
  await expect(page.locator('.lesson-judged')).toBeVisible()
})

test('a part that is there already is not offered, and nothing that is free has a price', async ({ page }) => {
  const there = [1, 2, 3, 4, 5, 6, 7, 8].find(
    seed => lesson({ lesson: sample, seed }).dealt.drawn['lead_length'] === '3 m',
  )
  await open(page, stepOf('target', there))
  await expect(page.locator('.lesson-target')).toBeVisible()
  await expect(page.getByLabel('Active DI box (3)')).toBeVisible()
  await expect(page.getByLabel('Short lead')).toHaveCount(0)
  const free = structuredClone(sample)
  Object.assign(free.steps[at('target')] ?? {}, { budget: null })
  for (const part of free.steps[at('target')]?.drawer ?? []) part.cost = 0
  await page.goto('about:blank')
  await open(page, packed(free, `?seed=${there}&step=${1 + at('target')}`))
  await expect(page.getByLabel('Active DI box', { exact: true })).toBeVisible()
  await expect(page.locator('.lesson-cost')).toHaveCount(0)
})

test('a number and its unit stand on one line', async ({ page }) => {
  const long = structuredClone(sample)
  Object.assign(long.steps[0] ?? {}, { text: 'From 0 dB to 10 kΩ, *30 m* away: 2 mistakes, 3 sheets.' })
  await open(page, packed(long, '?seed=1&step=1'))
  const text = (await page.locator('.lesson-text').textContent()) ?? ''
  expect(text).toBe('From 0\u00a0dB to 10\u00a0kΩ, 30\u00a0m away: 2 mistakes, 3 sheets.')
})

test('the ways of a trainer are on the list, and with a lesson whose file was opened here', async ({ page }) => {
  await open(page, '#1/lesson')
  await expect(page.locator('.lessons .lesson-trainer').first()).toBeVisible()
  for (const step of [1, 9]) {
    await page.goto('about:blank')
    await open(page, packed(sample, `?seed=1&step=${step}`))
    await expect(page.locator('.lesson-step')).toBeVisible()
    await expect(page.locator('.lesson-trainer')).toHaveCount(0)
  }
  await open(page, '#1/lesson')
  const buffer = Buffer.from(JSON.stringify(sample))
  await page
    .locator('.lessons input[type=file]')
    .setInputFiles({ name: 'l.json', mimeType: 'application/json', buffer })
  await expect(page.locator('.lesson .lesson-trainer summary')).toHaveText('For the trainer')
})

test('a step without an answer is not of the points that stand at the end', async ({ page }) => {
  await open(page, packed(HALF_ANSWERABLE, `?seed=${SEED}&step=1`))
  await answerNumber(page, '6 dB')
  await expect(page.locator('.lesson-judged')).toBeVisible()
  await page.goto('about:blank')
  await open(page, packed(HALF_ANSWERABLE, `?seed=${SEED}&step=3`))
  await expect(page.locator('.lesson-total')).toContainText('0 of 2 points')
  const points = page.locator('.lesson-points tbody td:nth-child(2)')
  await expect(points).toHaveText(['This step does not count.', /of 2/])
})

test('the same answer under another decimal sign is worth the same', async ({ page }) => {
  await open(page, stepOf('number', SEED))
  await setting(page, '1,5 comma')
  await respond(page, { text: (RIGHT.number.text ?? '').replace('.', ',') })
  await commit(page)
  await expect(page.locator('.lesson-judged')).toHaveAttribute('data-verdict', 'lesson-verdict-right')
  await setting(page, '1.5 point')
  await expect(page.locator('[data-row=said] dd')).toHaveText(/^−\d+\.\d+\sdB$/)
  await expect(page.locator('.lesson-judged')).toHaveAttribute('data-verdict', 'lesson-verdict-right')
})

test('what was said follows settings that were changed elsewhere', async ({ page }) => {
  await open(page, stepOf('number', SEED))
  await respond(page, RIGHT.number)
  await commit(page)
  await expect(page.locator('[data-row=said] dd')).toHaveText(/^−\d+\.\d+\sdB$/)
  await page.evaluate(() => (location.hash = '#1/pickup'))
  await setting(page, '1,5 comma')
  await page.goBack()
  for (const id of ['said', 'key']) {
    await expect(page.locator(`[data-row=${id}] dd`)).toHaveText(/^−\d+,\d+\sdB$/)
  }
})

test('a curve is drawn with a finger, and reads the same where it is typed', async ({ page }) => {
  await open(page, stepOf('curve'))
  const pad = page.locator('.lesson-pad')
  // It has its size once it stands still.
  await pad.hover()
  const box = await pad.boundingBox()
  if (box === null) throw new Error('nothing to draw on')
  await page.mouse.move(box.x + 1, box.y + box.height / 2)
  await page.mouse.down()
  await page.mouse.move(box.x + box.width - 1, box.y + box.height / 2, { steps: 12 })
  await page.mouse.up()
  const levels = page.locator('.lesson-levels input')
  const heights = await levels.evaluateAll(inputs => inputs.map(input => (input as HTMLInputElement).value))
  expect(new Set(heights).size).toBe(1)
  expect(heights[0]).toMatch(/^-?\d+(\.\d)?$/)
  await levels.first().fill('-30')
  await expect(levels.nth(3)).toHaveValue(heights[3] ?? '')
  await page.getByRole('button', { name: 'Start again' }).click()
  for (const place of [0, 5]) await expect(levels.nth(place)).toHaveValue('')
})

test('ways are dragged into order', async ({ page }) => {
  await open(page, stepOf('choice'))
  const ways = page.locator('.lesson-choice li')
  const first = await ways.first().getAttribute('data-way')
  await ways.first().locator('.lesson-grip').hover()
  await page.mouse.down()
  const box = await ways.last().boundingBox()
  await page.mouse.move(20, (box?.y ?? 0) + (box?.height ?? 0) / 2, { steps: 8 })
  await page.mouse.up()
  await expect(ways.last()).toHaveAttribute('data-way', first ?? '')
})

test('a reload keeps what was answered, and the way back of the browser goes a step back', async ({ page }) => {
  await open(page, stepOf('magnitude', SEED))
  await respond(page, RIGHT.magnitude)
  await commit(page)
  await page.getByRole('button', { name: 'Next' }).click()
  await expect(page.getByRole('heading', { level: 2 })).toHaveText('Number')
  await expect(page.getByRole('heading', { level: 2 })).toBeFocused()
  await expect(page).toHaveURL(/step=3/)
  await respond(page, { text: 'half typ' })
  await page.reload()
  await expect(page.locator('.lesson-number input')).toHaveValue('half typ')
  await expect(page.locator('.lesson-progress')).toContainText('1 of 12 points')
  await page.goBack()
  await expect(page.getByRole('heading', { level: 2 })).toHaveText('Magnitude')
  await expect(page.locator('.lesson-judged')).toHaveAttribute('data-verdict', 'lesson-verdict-right')
  // Without a seed the lesson goes on where this device left it.
  await page.goto('about:blank')
  await open(page, packed(sample))
  await expect(page).toHaveURL(/seed=1&step=2/)
  await expect(page.locator('.lesson-judged')).toBeVisible()
})

test('where storage is refused, answers last as long as the page', async ({ page }) => {
  await page.addInitScript(() => {
    const refused = () => {
      throw new Error('refused')
    }
    Object.defineProperty(window, 'localStorage', { get: refused })
  })
  await open(page, stepOf('magnitude', SEED))
  await respond(page, RIGHT.magnitude)
  await commit(page)
  await page.getByRole('button', { name: 'Next' }).click()
  await page.getByRole('button', { name: 'Previous' }).click()
  await expect(page.locator('.lesson-judged')).toBeVisible()
})

test('links that are damaged, bombs and lessons of tomorrow are told, with what was there', async ({ page }) => {
  const data = packed(sample).replace('#1/lesson/', '')
  const bomb = deflateRawSync(Buffer.alloc(3_000_000, 32)).toString('base64url')
  const tomorrow = { ...sample, version: 99 }
  for (const [rest, why, kept] of [
    [data.slice(0, -40), 'damaged', data.slice(0, -40)],
    [bomb, 'larger than 64 kB', bomb],
    ['no-such-lesson', 'no lesson of this name', 'no-such-lesson'],
    [packed(tomorrow).replace('#1/lesson/', ''), 'newer', '"version":99'],
    [packed({ stageohm: 'show', title: 'a show, and no lesson' }).replace('#1/lesson/', ''), '', '"show"'],
  ] as const) {
    await page.goto('about:blank')
    await open(page, `#1/lesson/${rest}`)
    await expect(page.getByRole('heading', { level: 1 })).toHaveText('This lesson cannot be opened')
    await expect(page.locator('.lesson [role=alert] p')).toContainText(why)
    expect(await page.locator('.lesson textarea').inputValue()).toContain(kept)
  }
})

test('a file is opened, with what is wrong about it; what is none is told', async ({ page }) => {
  await open(page, '#1/lesson')
  const choose = (text: string) =>
    page
      .locator('.lessons input[type=file]')
      .setInputFiles({ name: 'lesson.json', mimeType: 'application/json', buffer: Buffer.from(text) })
  await choose('{ half a file')
  await expect(page.locator('.lessons [role=alert]')).toContainText('cannot be read as JSON')
  await expect(page.locator('.lessons textarea')).toHaveValue('{ half a file')
  await choose(JSON.stringify({ ...sample, warp: 9 }, null, 2))
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('A lesson for tests')
  await expect(page.locator('.lesson-flaws summary')).toContainText('Problems')
  // One that is too long for an address lies on this device.
  await open(page, '#1/lesson')
  const long = { ...sample, steps: sample.steps.map(step => ({ ...step, note: 'n'.repeat(3900) + Math.random() })) }
  const many = { ...long, steps: Array.from({ length: 20 }, () => long.steps[0]) }
  await choose(JSON.stringify(many))
  await expect(page).toHaveURL(/lesson\/file\?/)
  await page.reload()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('A lesson for tests')
})

test('the result: points, confidence, and a file to hand in', async ({ page }) => {
  await open(page, stepOf('magnitude', SEED))
  await respond(page, RIGHT.magnitude)
  await commit(page, 'certain')
  await page.getByRole('button', { name: 'Next' }).click()
  await respond(page, WRONG.number)
  await commit(page, 'guessing')
  const { points } = marked('number', WRONG.number)
  for (let step = 3; step <= sample.steps.length; step++) await page.locator('.lesson-next').click()
  await expect(page.locator('.lesson-total')).toContainText(`${Math.round(10 * (1 + points)) / 10} of 12 points`)
  await expect(page.locator('.lesson-total')).toContainText('Not passed')
  await expect(page.locator('.lesson-confidence li')).toHaveCount(2)
  await expect(page.locator('.lesson-confidence li').last()).toContainText('100 % right')
  await page.getByLabel('Nickname').fill('Ada')
  const saved = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save result' }).click()
  const file = await saved
  expect(file.suggestedFilename()).toMatch(/^stageohm-result-sample-ada-\d{4}-\d\d-\d\d\.json$/)
  const result = JSON.parse(await readFile(await file.path(), 'utf8')) as Record<string, unknown>
  expect(result).toMatchObject({
    stageohm: 'lesson-result',
    version: 1,
    lesson: { id: 'sample', revision: 3 },
    seed: SEED,
    name: 'Ada',
  })
  expect((result['responses'] as unknown[])[2]).toEqual({ text: '-3 dB', sure: 1 })
  // And the native engine makes the same points of it.
  const again = lesson({ lesson: sample, seed: SEED, responses: result['responses'] as unknown[] })
  expect(again.marked[1]?.points).toBe(1)
  await page.getByRole('button', { name: 'Again with other values' }).click()
  await expect(page).toHaveURL(/step=1$/)
  await expect(page.locator('.lesson-progress')).toContainText('0 of 12 points')
})

test('the calculator is open to be tried once it was answered', async ({ page }) => {
  await open(page, stepOf('number', SEED))
  await expect(page.locator('.lesson a[href*="pickup"]')).toHaveCount(0)
  await respond(page, WRONG.number)
  await commit(page)
  await page.getByRole('link', { name: 'Open in full' }).click()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Pickup, lead and load')
  await page.goBack()
  await expect(page.locator('.lesson-judged')).toBeVisible()
})

test('a run by keys alone', async ({ page }) => {
  await open(page, stepOf('magnitude', SEED))
  const tabTo = async (focused: string) => {
    for (let press = 0; press < 40; press++) {
      await page.keyboard.press('Tab')
      if ((await page.locator(`${focused}:focus`).count()) > 0) return
    }
    throw new Error(`no way to ${focused} by keys`)
  }
  const commitByKeys = async () => {
    await tabTo('.lesson-commit input[type=radio]')
    await page.keyboard.press('Space')
    await tabTo('.lesson-main')
    await page.keyboard.press('Enter')
    await expect(page.locator('.lesson-judged h3').first()).toBeFocused()
    await tabTo('.lesson-next')
    await page.keyboard.press('Enter')
    await expect(page.getByRole('heading', { level: 2 })).toBeFocused()
  }
  await tabTo('.lesson-magnitude input')
  await page.keyboard.press('Space')
  await commitByKeys()
  await tabTo('.lesson-number input')
  await page.keyboard.type('-9 dB')
  await commitByKeys()
  for (let place = 0; place < 6; place++) {
    await tabTo('.lesson-levels input')
    await page.keyboard.type('-6')
  }
  await commitByKeys()
  await tabTo('.lesson-target input[type=radio]')
  await page.keyboard.press('ArrowDown')
  await commitByKeys()
  await tabTo('.lesson-measures button')
  await page.keyboard.press('Enter')
  await expect(page.locator('.lesson-measures strong')).toHaveCount(1)
  await tabTo('.lesson-fault .choices input')
  await page.keyboard.press('Space')
  await commitByKeys()
  const first = await page.locator('.lesson-choice li').first().getAttribute('data-way')
  await tabTo('.lesson-move')
  await tabTo('.lesson-move')
  await page.keyboard.press('Enter')
  await expect(page.locator('.lesson-choice li').nth(1)).toHaveAttribute('data-way', first ?? '')
  await expect(page.locator(`[data-way="${first}"] .lesson-move:focus`)).toHaveCount(1)
  await commitByKeys()
  await tabTo('.lesson-next')
  await page.keyboard.press('Enter')
  await expect(page.locator('.lesson-points tbody tr', { hasText: 'not answered' })).toHaveCount(0)
})

for (const [width, height] of [
  [320, 700],
  [360, 740],
] as const) {
  test(`question, answer field and plot have room on ${width} by ${height}`, async ({ page }) => {
    await page.setViewportSize({ width, height })
    for (const [kind, field] of [
      ['magnitude', '.lesson-magnitude'],
      ['number', '.lesson-number input'],
      ['curve', '.lesson-levels'],
    ] as const) {
      await page.goto('about:blank')
      await open(page, stepOf(kind, SEED))
      const box = await page.locator(field).boundingBox()
      expect((box?.y ?? Infinity) + (box?.height ?? 0)).toBeLessThanOrEqual(700)
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    }
  })
}
