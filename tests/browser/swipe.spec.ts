// A finger that scrolls the page over a slider sets nothing.

import type { Page } from '@playwright/test'
import { answer } from './engine'
import { expect, expectAnswer, input, open, slider, test } from './page'

test.use({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true })

interface Point {
  readonly x: number
  readonly y: number
}

/** Moves a finger as a hand does, in steps, and lifts it. */
async function swipe(page: Page, from: Point, by: Point, steps = 12): Promise<void> {
  const session = await page.context().newCDPSession(page)
  const at = (part: number) => [{ x: from.x + part * by.x, y: from.y + part * by.y }]
  await session.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(0) })
  for (let step = 1; step <= steps; step++) {
    await session.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(step / steps) })
    await page.waitForTimeout(16)
  }
  await session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] })
}

/** A place on a slider, in parts of its width, once it stands still in the middle of the screen. */
async function placeOn(page: Page, id: string, part: number): Promise<Point> {
  await slider(page, id).evaluate(element => element.scrollIntoView({ block: 'center', behavior: 'instant' }))
  const box = await slider(page, id).boundingBox()
  if (box === null) throw new Error('the slider is not to be seen')
  return { x: box.x + part * box.width, y: box.y + 0.5 * box.height }
}

for (const [way, by] of [
  ['up', { x: 4, y: -260 }],
  ['down', { x: -4, y: 200 }],
  ['steeply', { x: 60, y: -240 }],
] as const) {
  test(`a swipe ${way} over a slider scrolls the page and changes nothing`, async ({ page }) => {
    await open(page, '#1/pickup')
    const before = await input(page, 'coil_l').inputValue()
    const from = await placeOn(page, 'coil_l', 0.9)
    const scrolled = () => page.evaluate(() => scrollY)
    const was = await scrolled()
    await swipe(page, from, by)
    await expect.poll(async () => Math.sign(was - (await scrolled()))).toBe(Math.sign(by.y))
    await expect(input(page, 'coil_l')).toHaveValue(before)
    await expectAnswer(page, answer('pickup'))
    expect(page.url()).not.toContain('coil_l')
    // The thumb stands where it stood.
    const at = await slider(page, 'coil_l').evaluate((element: HTMLInputElement) => element.valueAsNumber)
    await page.reload()
    await expect(slider(page, 'coil_l')).toHaveJSProperty('valueAsNumber', at)
  })
}

test('a swipe that begins on the thumb itself changes nothing either', async ({ page }) => {
  await open(page, '#1/pickup')
  const before = await input(page, 'load_r').inputValue()
  const part = await slider(page, 'load_r').evaluate((element: HTMLInputElement) => element.valueAsNumber / 400)
  const from = await placeOn(page, 'load_r', part)
  await swipe(page, from, { x: 8, y: -220 })
  await expect(input(page, 'load_r')).toHaveValue(before)
})

test('sideways it slides under the finger', async ({ page }) => {
  await open(page, '#1/pickup')
  const before = await input(page, 'coil_l').inputValue()
  const from = await placeOn(page, 'coil_l', 0.2)
  await swipe(page, from, { x: 80, y: 10 })
  await expect(input(page, 'coil_l')).not.toHaveValue(before)
  await expectAnswer(page, answer('pickup', { coil_l: await input(page, 'coil_l').inputValue() }))
  // Under the finger, where it was lifted.
  const box = await slider(page, 'coil_l').boundingBox()
  const at = await slider(page, 'coil_l').evaluate((element: HTMLInputElement) => element.valueAsNumber)
  const part = (from.x + 80 - (box?.x ?? 0) - 13) / ((box?.width ?? 0) - 26)
  expect(Math.abs(at - 400 * part)).toBeLessThan(12)
})

test('a tap on the track sets it once', async ({ page }) => {
  await open(page, '#1/pickup')
  const before = await input(page, 'coil_l').inputValue()
  const { x, y } = await placeOn(page, 'coil_l', 0.8)
  await page.touchscreen.tap(x, y)
  await expect(input(page, 'coil_l')).not.toHaveValue(before)
  await expectAnswer(page, answer('pickup', { coil_l: await input(page, 'coil_l').inputValue() }))
  await page.getByRole('button', { name: 'Undo', exact: true }).tap()
  await expect(input(page, 'coil_l')).toHaveValue(before)
  await expect(page.getByRole('button', { name: 'Undo', exact: true })).toHaveAttribute('aria-disabled', 'true')
})
