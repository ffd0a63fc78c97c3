// The ground map on the page, with a map that was made up in the engine's place: what
// is drawn, moved, chosen and told.

import type { Page } from '@playwright/test'
import type { GroundMap } from '../../www/generated/contract'
import { madeUp } from '../fixtures/ground-map.mjs'
import { expect, open, test } from './page'

/** Opens the view with this map in the place of the one that the engine would give. */
async function openMap(page: Page, map: GroundMap): Promise<void> {
  await page.addInitScript(given => {
    const Real = globalThis.Worker
    const answers: Readonly<Record<string, unknown>> = {
      stage_map: given,
      stage_map_backwards: [{ circuit: 'c1', volts: 0.12 }],
      stage_map_working: { frequency: 50, steps: [] },
    }
    globalThis.Worker = class extends Real {
      override postMessage(asked: { readonly call?: string; readonly number: number }): void {
        const result = answers[asked.call ?? '']
        if (result === undefined) super.postMessage(asked)
        else
          setTimeout(() => this.dispatchEvent(new MessageEvent('message', { data: { number: asked.number, result } })))
      }
    }
  }, map)
  await open(page, '#1/stage/map')
  await expect(page.locator('.ground-map .map-frame')).toBeVisible()
}

const map = madeUp(24, 40)

function frame(page: Page) {
  return page.locator('.map-frame')
}

/** How the picture is moved and scaled. */
function put(page: Page): Promise<string> {
  return page.locator('.map-layer').evaluate(layer => getComputedStyle(layer).transform)
}

test('says what to do first, and caution before all', async ({ page }) => {
  await openMap(page, map)
  const over = map.inputs.filter(input => input.over).length
  await expect(page.locator('.map-verdict')).toContainText(`too much hum: ${over}.`)
  await expect(page.locator('.map-plan ol li').first()).toHaveText(map.every_limit.isolate[0]?.what ?? 'something')
  await expect(page.locator('.map-short').first()).toContainText('Your drawer has 2 free, this needs 3.')
  const caution = await page.locator('[data-caution]').boundingBox()
  const verdict = await page.locator('.map-verdict').boundingBox()
  expect(caution?.y).toBeLessThan(verdict?.y ?? 0)
  await page.locator('.map-plan summary').first().click()
  await expect(page.locator('.map-plan table').first().locator('tbody tr')).toHaveCount(over)
})

test('an input tells its loop in words and lights it', async ({ page }) => {
  await openMap(page, map)
  await expect(page.locator('.lit')).toHaveCount(0)
  const first = page.locator('.map-inputs button').first()
  await first.click()
  await expect(first).toHaveAttribute('aria-expanded', 'true')
  const told = page.locator('.map-about .map-loop')
  await expect(told).toContainText('earth of the venue')
  await expect(told).toContainText('line 1 Line → Stage box 1 → Earth of Circuit 2')
  await expect(page.locator('.lit path.around')).toHaveCount(3)
  await expect(page.locator('.map-backwards')).toContainText('120 mV')
  await first.click()
  await expect(page.locator('.lit')).toHaveCount(0)
})

test('the picture holds every place and wire, and shows all of it at first', async ({ page }) => {
  await openMap(page, map)
  const circuits = map.places.filter(({ kind }) => kind === 'circuit').length
  await expect(page.locator('.ground rect.box')).toHaveCount(map.places.length - circuits)
  await expect(page.locator('.ground path.way')).toHaveCount(map.wires.length)
  await expect.poll(() => isWhole(page)).toBe(true)
})

async function isWhole(page: Page): Promise<boolean> {
  const [around, inner] = await Promise.all([frame(page).boundingBox(), page.locator('.ground').boundingBox()])
  if (around === null || inner === null) return false
  const [right, foot] = [around.x + around.width, around.y + around.height]
  return (
    inner.x > around.x - 2 &&
    inner.y > around.y - 2 &&
    inner.x + inner.width < right + 2 &&
    inner.y + inner.height < foot + 2
  )
}

test('is moved and scaled by keys, mouse and buttons, and fits again', async ({ page }) => {
  await openMap(page, map)
  await expect.poll(() => isWhole(page)).toBe(true)
  const whole = await put(page)
  const differs = async (act: () => Promise<void>) => {
    const before = await put(page)
    await act()
    await expect.poll(() => put(page)).not.toBe(before)
  }
  await frame(page).focus()
  for (const key of ['+', 'ArrowLeft', 'ArrowDown', '-']) await differs(() => page.keyboard.press(key))
  await page.keyboard.press('0')
  await expect.poll(() => put(page)).toBe(whole)
  await differs(() => page.getByRole('button', { name: 'Zoom in' }).click())
  const box = await frame(page).boundingBox()
  if (box === null) throw new Error('there is no picture')
  await differs(async () => {
    await page.mouse.move(box.x + 100, box.y + 100)
    await page.mouse.down()
    await page.mouse.move(box.x + 160, box.y + 140, { steps: 4 })
    await page.mouse.up()
  })
  // What was dragged was not chosen.
  await expect(page.locator('.lit')).toHaveCount(0)
  await page.getByRole('button', { name: 'Fit' }).click()
  await expect.poll(() => put(page)).toBe(whole)
})

test('Tab goes from place to place once one is chosen, and Escape leaves', async ({ page }) => {
  await openMap(page, map)
  await frame(page).focus()
  await page.keyboard.press('Enter')
  await expect(page.locator('.map-chosen h3')).toHaveText('Earth of Circuit 1')
  for (let count = 0; count < 2; count++) await page.keyboard.press('Tab')
  await expect(page.locator('.map-chosen h3')).toHaveText(map.places[2]?.name ?? 'a place')
  await expect(frame(page)).toBeFocused()
  await page.keyboard.press('Escape')
  await expect(page.locator('.map-chosen')).toBeEmpty()
  await page.keyboard.press('Tab')
  await expect(frame(page)).not.toBeFocused()
})

test('a touch chooses the box that is there, and says what it is', async ({ page }) => {
  await openMap(page, map)
  await expect.poll(() => isWhole(page)).toBe(true)
  const name = page.locator('.ground .place-name', { hasText: 'Stage box 1' })
  await frame(page).scrollIntoViewIfNeeded()
  const box = await name.boundingBox()
  if (box === null) throw new Error('there is no such box')
  await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2)
  await expect(page.locator('.map-chosen h3')).toHaveText('Stage box 1')
  await expect(page.locator('.map-chosen')).toContainText('with a safety earth')
})

test('the list has what the picture has', async ({ page }) => {
  await openMap(page, map)
  await page.getByRole('radio', { name: 'List', exact: true }).check()
  await expect(frame(page)).toHaveCount(0)
  const list = page.locator('.map-list')
  await expect(list.getByRole('button')).toHaveCount(
    map.places.filter(({ kind }) => kind !== 'circuit').length + map.wires.length + map.loops.length,
  )
  await list.getByRole('button', { name: /Stage box 1 to Front-of-house console/ }).click()
  await expect(page.locator('.map-chosen')).toContainText('network lead Network 1')
})

test('what could not be solved is said in the place of an answer', async ({ page }) => {
  await openMap(page, { ...map, problem: 'This could not be solved.' })
  await expect(page.locator('.ground-map .problem')).toHaveText('This could not be solved.')
  await expect(page.locator('.map-verdict')).toHaveCount(0)
})
