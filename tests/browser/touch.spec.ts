// On a phone, by finger.

import { answer } from './engine'
import { expect, expectAnswer, field, input, layOut, open, slider, test } from './page'

test.use({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true })

test('a finger reads the curve', async ({ page }) => {
  await open(page, '#1/pickup/load_r=1M/load_r=10k')
  await layOut(page)
  const cursor = page.getByRole('slider', { name: /^Read/ })
  await cursor.scrollIntoViewIfNeeded()
  const box = await cursor.boundingBox()
  if (box === null) throw new Error('the plot is not to be seen')
  const readout = page.locator('.under-finger')
  await page.touchscreen.tap(box.x + 0.25 * box.width, box.y + 0.5 * box.height)
  await expect(readout.locator('strong').first()).toContainText('Hz')
  await expect(readout).toContainText(/Load resistance 1\sMΩ: .*\sdB/)
  await expect(readout).toContainText(/Load resistance 10\skΩ: .*\sdB/)
  const there = await readout.textContent()

  const session = await page.context().newCDPSession(page)
  const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', part?: number) =>
    session.send('Input.dispatchTouchEvent', {
      type,
      touchPoints: part === undefined ? [] : [{ x: box.x + part * box.width, y: box.y + 0.5 * box.height }],
    })
  await touch('touchStart', 0.3)
  for (const part of [0.4, 0.5, 0.6, 0.7]) await touch('touchMove', part)
  await touch('touchEnd')
  await expect(readout).not.toHaveText(there ?? '')
  await expect(readout.locator('strong').first()).toContainText('kHz')
})

for (const screen of ['pickup/load_r=1M/load_r=10k', 'noise-floor', 'phantom']) {
  test(`what is read does not push the plot away from the finger: ${screen}`, async ({ page }) => {
    await open(page, `#1/${screen}`)
    // What is laid out only when it comes into sight would push by itself.
    await layOut(page)
    const picture = page.locator('.picture').first()
    await picture.scrollIntoViewIfNeeded()
    const box = await picture.boundingBox()
    if (box === null) throw new Error('the plot is not to be seen')
    for (const part of [0.3, 0.6, 0.9]) {
      await page.touchscreen.tap(box.x + part * box.width, box.y + 0.5 * box.height)
      await expect(page.locator('.under-finger').first().locator('strong').first()).toBeVisible()
      await expect.poll(async () => Math.abs(((await picture.boundingBox())?.y ?? NaN) - box.y)).toBeLessThan(2)
    }
  })
}

test('a slider moves under the finger, and the answer stays in sight', async ({ page }) => {
  await open(page, '#1/pickup')
  await slider(page, 'load_r').scrollIntoViewIfNeeded()
  const before = await input(page, 'load_r').inputValue()
  const box = await slider(page, 'load_r').boundingBox()
  if (box === null) throw new Error('the slider is not to be seen')
  await page.touchscreen.tap(box.x + 0.2 * box.width, box.y + 0.5 * box.height)
  await expect(input(page, 'load_r')).not.toHaveValue(before)
  await expectAnswer(page, answer('pickup', { load_r: await input(page, 'load_r').inputValue() }))
})

test('the letters that a phone hides are beside the field', async ({ page }) => {
  await open(page, '#1/pickup')
  await input(page, 'load_r').tap()
  await input(page, 'load_r').fill('140')
  await field(page, 'load_r').getByRole('button', { name: 'k', exact: true }).tap()
  await expect(input(page, 'load_r')).toHaveValue('140k')
  await expect(input(page, 'load_r')).toBeFocused()
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
  await input(page, 'load_r').fill('4k7')
  await field(page, 'load_r').getByRole('button', { name: 'M', exact: true }).tap()
  await expect(input(page, 'load_r')).toHaveValue('4M7')
})

test('a tap below a field that is typed into hits what it is meant for', async ({ page }) => {
  await open(page, '#1/pickup')
  await input(page, 'load_r').tap()
  await expect(field(page, 'load_r').locator('.thumb-keys')).toBeVisible()
  const mark = field(page, 'load_r').locator('.marks button').first()
  await mark.tap()
  await expect(mark).toHaveAttribute('aria-pressed', 'true')
  await expect(field(page, 'load_r').locator('.thumb-keys')).toBeHidden()
})

test('the number pad has no sign and no letters: they are beside it', async ({ page }) => {
  await open(page, '#1/levels')
  const level = input(page, 'level')
  await expect(level).toHaveAttribute('inputmode', 'decimal')
  await level.tap()
  await level.fill('10')
  await field(page, 'level').getByRole('button', { name: 'change the sign' }).tap()
  await expect(level).toHaveValue('−10')
  await expectAnswer(page, answer('levels', { level: '-10' }))
  await field(page, 'level').getByRole('button', { name: 'change the sign' }).tap()
  await expect(level).toHaveValue('10')
  await field(page, 'level').getByRole('button', { name: 'letters' }).tap()
  await expect(level).toHaveAttribute('inputmode', 'text')
  await expect(level).toBeFocused()
  // What was typed is not marked, or the next letter would replace it.
  await page.keyboard.type(' dBV')
  await expect(level).toHaveValue('10 dBV')
  await field(page, 'level').getByRole('button', { name: 'digits' }).tap()
  await expect(level).toHaveAttribute('inputmode', 'decimal')
})

test('what is touched is large enough', async ({ page }) => {
  await open(page, '#1/pickup')
  await layOut(page)
  const small = await page.locator('main').evaluate(main =>
    [...main.querySelectorAll('button, select, input:not([type=radio]), label:has(> [type=radio]), .cursor')]
      .filter(element => element.checkVisibility({ visibilityProperty: true }))
      .filter(element => {
        const { width, height } = element.getBoundingClientRect()
        return width < 44 || height < 44
      })
      .map(element => element.outerHTML),
  )
  expect(small).toEqual([])
})
