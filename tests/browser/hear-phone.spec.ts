// Hearing an answer with a thumb: what plays can be stopped from anywhere, and nothing lies over that.

import type { Locator, Page } from '@playwright/test'
import {
  big,
  expectSilence,
  HELD,
  openSection,
  PICKUP,
  play,
  problem,
  said,
  section,
  start,
  watchSound,
} from './hearing'
import { expect, input, open, test } from './page'

test.use({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true })

/** Whether a finger that taps it at its middle, or near its ends, meets it and nothing over it. */
function isOnTop(target: Locator): Promise<boolean> {
  return target.evaluate(target => {
    const { left, right, top, bottom } = target.getBoundingClientRect()
    const y = (top + bottom) / 2
    return (
      top >= 0 &&
      bottom <= innerHeight &&
      [left + 8, (left + right) / 2, right - 8].every(x => target.contains(document.elementFromPoint(x, y)))
    )
  })
}

const stop = (page: Page) => section(page).locator('.hear-stop')
const undo = (page: Page) => page.getByRole('button', { name: 'Undo', exact: true })

const PLACES: Readonly<Record<string, (page: Page) => Promise<unknown>>> = {
  'the top': page => page.evaluate(() => scrollTo(0, 0)),
  'the fields': page => input(page, 'lead_length').scrollIntoViewIfNeeded(),
  'the switch': page => section(page).locator('summary').first().scrollIntoViewIfNeeded(),
  'the loudness': page => section(page).getByRole('radio', { name: 'As it is' }).scrollIntoViewIfNeeded(),
  'the volume': page => section(page).getByLabel('Volume').scrollIntoViewIfNeeded(),
  'the end': page => page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight)),
}

test('what plays can be stopped wherever one is on the page', async ({ page }) => {
  await openSection(page, HELD)
  await start(page)
  for (const undoable of [false, true]) {
    if (undoable) await input(page, 'lead_length').fill('12 m')
    await expect(undo(page)).toHaveCount(undoable ? 1 : 0)
    for (const [where, go] of Object.entries(PLACES)) {
      await go(page)
      for (const target of [stop(page), big(page), ...(undoable ? [undo(page)] : [])]) {
        await expect.poll(() => isOnTop(target), `${where}, undo: ${undoable}`).toBe(true)
      }
    }
  }
  // Nothing of the page is left beneath it.
  const [end, bar] = [await page.locator('main').boundingBox(), await play(page).boundingBox()]
  expect((end?.y ?? 0) + (end?.height ?? 0)).toBeLessThanOrEqual((bar?.y ?? 0) + 0.5)
  await PLACES['the top']?.(page)
  await stop(page).tap()
  await expectSilence(page)
  await expect(stop(page)).not.toBeInViewport()
})

test('in a lesson too', async ({ page }) => {
  await openSection(page, `${PICKUP}?lesson`)
  await start(page)
  await PLACES['the top']?.(page)
  await expect.poll(() => isOnTop(stop(page))).toBe(true)
})

test('what undoes lies over nothing that plays', async ({ page }) => {
  await openSection(page, PICKUP)
  await input(page, 'lead_length').fill('12 m')
  await expect(undo(page)).toBeVisible()
  for (const target of [big(page), stop(page)]) {
    // Where it floats.
    await target.evaluate(target => target.scrollIntoView({ block: 'end' }))
    await page.evaluate(() => scrollBy(0, 12))
    await expect.poll(() => isOnTop(target)).toBe(true)
  }
})

test('why it is silent comes into sight', async ({ page }) => {
  await page.addInitScript(() => Reflect.deleteProperty(window, 'AudioContext'))
  await open(page, PICKUP)
  await input(page, 'lead_length').fill('12 m')
  await section(page).locator('summary').first().click()
  await big(page).evaluate(target => target.scrollIntoView({ block: 'end' }))
  await big(page).tap()
  await expect(problem(page)).toContainText('Open the page in another browser')
  await expect.poll(() => isOnTop(problem(page))).toBe(true)
})

test('no key is told of, nor that a file may be dropped', async ({ page }) => {
  await openSection(page, PICKUP)
  await expect(section(page)).toContainText('Tap Stop as soon as it is too loud')
  await expect(section(page).getByRole('button', { name: 'Choose a recording' })).toBeVisible()
  await expect(section(page)).not.toContainText(/Escape|The X key|drop/)
})

test('the halves have whole words, in Spanish too', async ({ page }) => {
  await watchSound(page)
  await open(page, `#1/pickup/load_r=1M/load_r=10k?language=es`)
  await section(page).locator('summary').first().click()
  await start(page)
  const halves = section(page).locator('.hear-halves > span')
  await expect(halves.last()).toHaveText('Guardado', { useInnerText: true })
  await expect(said(page)).toContainText('montaje')
  // A line of words is not as tall as two.
  const tall = await halves.locator('.hear-short').evaluate(half => half.getBoundingClientRect().height)
  expect(tall).toBeLessThan(30)
})
