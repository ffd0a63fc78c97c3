// A lesson on a phone: by finger, upright and on its side, and with large letters.

import type { Locator, Page } from '@playwright/test'
import { stepOf } from './lesson-sample'
import { expect, open, test } from './page'

test.use({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true })

/** Steps of a lesson that ships, each with more text than a screen of a phone holds. */
const LONG = { curve: 4, choice: 7, target: 8, fault: 9 } as const

async function answerAnyhow(page: Page, kind: string): Promise<void> {
  await expect(page.locator('.lesson-answer')).toBeVisible()
  if (kind === 'curve') {
    for (const place of [0, 5]) await page.locator('.lesson-levels input').nth(place).fill('-6')
  }
  if (kind === 'choice') await page.locator('.lesson-move').nth(1).click()
  if (kind === 'fault') {
    await page.locator('.lesson-measures button').first().click()
    await page.locator('.lesson-fault .choices input').first().check()
  }
  if (kind === 'target') await page.locator('.lesson-target fieldset').first().getByRole('radio').nth(1).check()
}

async function commit(page: Page): Promise<void> {
  await page.getByRole('radio', { name: 'fairly sure' }).check()
  await page.getByRole('button', { name: 'Commit' }).click()
}

/** Letters twice as large. */
async function enlarge(page: Page): Promise<void> {
  await page.addInitScript(() => {
    addEventListener('DOMContentLoaded', () => document.documentElement.style.setProperty('font-size', '32px'))
  })
}

for (const [width, height, large] of [
  [360, 740, false],
  [740, 360, false],
  [360, 740, true],
] as const) {
  for (const [kind, step] of Object.entries(LONG)) {
    test(`${kind}: the verdict is seen on ${width} by ${height}${large ? ', large' : ''}`, async ({ page }) => {
      await page.setViewportSize({ width, height })
      if (large) await enlarge(page)
      await open(page, `#1/lesson/passive-bass?seed=1&step=${step}`)
      await answerAnyhow(page, kind)
      await commit(page)
      const verdict = page.locator('.lesson-judged h3').first()
      await expect(verdict).toBeFocused()
      // Once plots have their size.
      await expect.poll(async () => (await verdict.boundingBox())?.y ?? -1).toBeGreaterThanOrEqual(0)
      const box = await verdict.boundingBox()
      expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual(height)
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
      // No row runs into the next one.
      const over = await page
        .locator('.lesson-rows tr')
        .evaluateAll(
          rows =>
            rows.filter(row => row.scrollHeight > row.clientHeight + 2 && getComputedStyle(row).display === 'grid')
              .length,
        )
      expect(over).toBe(0)
    })
  }
}

/** What a finger does on an element, in shares of its width and height. */
async function swipe(page: Page, on: Locator, places: readonly (readonly [number, number])[], lift = true) {
  const box = await on.boundingBox()
  if (box === null) throw new Error('there is nothing to swipe over')
  const session = await page.context().newCDPSession(page)
  for (const [count, [x, y]] of places.entries()) {
    const touchPoints = [{ x: box.x + x * box.width, y: box.y + y * box.height }]
    await session.send('Input.dispatchTouchEvent', { type: count === 0 ? 'touchStart' : 'touchMove', touchPoints })
  }
  if (lift) await session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] })
}

function heights(page: Page): Promise<string[]> {
  return page.locator('.lesson-levels input').evaluateAll(all => all.map(one => (one as HTMLInputElement).value))
}

const ACROSS = [0.02, 0.1, 0.3, 0.5, 0.7, 0.9, 0.98].map(x => [x, 0.5] as const)

test('a finger draws along and scrolls up and down', async ({ page }) => {
  await open(page, stepOf('curve'))
  const pad = page.locator('.lesson-pad')
  await pad.scrollIntoViewIfNeeded()
  await swipe(page, pad, ACROSS)
  const drawn = await heights(page)
  expect(new Set(drawn.slice(1, 5)).size).toBe(1)
  expect(drawn[2]).not.toBe('')
  const before = await page.evaluate(() => scrollY)
  const up = [0.9, 0.8, 0.6, 0.4, 0.2, 0.1].map(y => [0.5, y] as const)
  await swipe(page, pad, up)
  await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(before)
  expect(await heights(page)).toEqual(drawn)
  // A tap is a point.
  await page.getByRole('button', { name: 'Start again' }).click()
  await pad.tap()
  await expect(page.locator('.lesson-curve circle')).toHaveCount(1)
})

test('one stroke of a curve is taken back, and so is starting again', async ({ page }) => {
  await open(page, stepOf('curve'))
  const pad = page.locator('.lesson-pad')
  const undo = page.getByRole('button', { name: 'Undo' })
  await expect(undo).toHaveAttribute('aria-disabled', 'true')
  await pad.scrollIntoViewIfNeeded()
  await swipe(page, pad, ACROSS)
  const first = await heights(page)
  await swipe(
    page,
    pad,
    ACROSS.map(([x]) => [x, 0.8] as const),
  )
  expect(await heights(page)).not.toEqual(first)
  await undo.click()
  expect(await heights(page)).toEqual(first)
  await expect(undo).toHaveAttribute('aria-disabled', 'true')
  await expect(undo).toBeFocused()
  await page.getByRole('button', { name: 'Start again' }).click()
  await undo.click()
  expect(await heights(page)).toEqual(first)
  // All that is typed at one place is one change.
  await page.locator('.lesson-levels input').nth(2).fill('')
  await page.locator('.lesson-levels input').nth(2).pressSequentially('-17')
  await undo.click()
  expect(await heights(page)).toEqual(first)
})

test('level and frequency are told while a finger draws', async ({ page }) => {
  await open(page, stepOf('curve'))
  const pad = page.locator('.lesson-pad')
  await pad.scrollIntoViewIfNeeded()
  await expect(page.locator('.lesson-over')).toHaveCount(0)
  await swipe(page, pad, ACROSS.slice(0, 4), false)
  await expect(page.locator('.lesson-over')).toHaveText(/^\d+\sHz: .\d+\.\d\sdB$/)
})

test('the pad leaves room for the question, names the ends, and tells nothing of the curve', async ({ page }) => {
  for (const [width, height] of [
    [360, 740],
    [740, 360],
  ] as const) {
    await page.setViewportSize({ width, height })
    await page.goto('about:blank')
    await open(page, stepOf('curve'))
    const picture = page.locator('.lesson-curve .picture')
    await expect.poll(async () => (await picture.boundingBox())?.height ?? Infinity).toBeLessThanOrEqual(0.6 * height)
    const marks = (await picture.locator('.grid text').allTextContents()).map(text => text.replace('−', '-'))
    expect(marks).toContain('50')
    expect(marks).toContain('10k')
    const levels = marks.filter(text => /^-?\d0$|^0$/.test(text) && text !== '50').map(Number)
    expect(levels).toContain(0)
    expect(Math.max(...levels)).toBeLessThanOrEqual(20)
    expect(Math.min(...levels)).toBeGreaterThanOrEqual(-40)
  }
})

test('with letters twice as large what stood side by side stands one under the other', async ({ page }) => {
  await enlarge(page)
  const boxes = async (selector: string) =>
    page.locator(selector).evaluateAll(all =>
      all.map(one => {
        const { left, right, top, bottom } = one.getBoundingClientRect()
        return { left, right, top, bottom }
      }),
    )
  const narrow = async (kind: string) => {
    await page.goto('about:blank')
    await open(page, stepOf(kind))
    await expect(page.locator('.lesson-answer')).toBeVisible()
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360)
  }
  await narrow('number')
  const sure = await boxes('.lesson-commit .segments label')
  expect(new Set(sure.map(({ left }) => Math.round(left))).size).toBe(1)
  await narrow('choice')
  const [way] = await boxes('.lesson-way')
  const [move] = await boxes('.lesson-move')
  expect(move?.top).toBeGreaterThanOrEqual(way?.bottom ?? Infinity)
  await narrow('curve')
  const levels = await boxes('.lesson-levels input')
  expect(new Set(levels.map(({ top }) => Math.round(top))).size).toBeGreaterThanOrEqual(2)
  for (const { left, right } of levels) expect(right - left).toBeGreaterThan(64)
  const [title] = await boxes('.lesson-curve-head strong')
  const [undo] = await boxes('.lesson-curve-head button')
  expect(undo?.top).toBeGreaterThanOrEqual(title?.bottom ?? Infinity)
  await narrow('fault')
  await page.locator('.lesson-measures button').first().click()
  await expect(page.locator('.lesson-measures strong')).toBeVisible()
  const [name] = await boxes('.lesson-measures tbody th')
  const [is, usual] = await boxes('.lesson-measures tbody tr:first-child td')
  expect(is?.top).toBeGreaterThanOrEqual(name?.bottom ?? Infinity)
  expect(usual?.left).toBeGreaterThanOrEqual(is?.right ?? Infinity)
})

test('a power of ten is one of few, side by side, and the same few whatever is dealt', async ({ page }) => {
  const offered = async (seed: number) => {
    await page.goto('about:blank')
    await open(page, stepOf('magnitude', seed))
    await expect(page.locator('.lesson-magnitude label').first()).toBeVisible()
    return page.locator('.lesson-magnitude label').allTextContents()
  }
  const first = await offered(1)
  expect(first.length).toBeLessThanOrEqual(9)
  for (const seed of [2, 3, 4]) expect(await offered(seed)).toEqual(first)
  const lefts = await page
    .locator('.lesson-magnitude label')
    .evaluateAll(all => all.map(one => Math.round(one.getBoundingClientRect().left)))
  expect(new Set(lefts).size).toBe(2)
})
