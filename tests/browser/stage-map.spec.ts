// The ground map on the page, with a map that was made up in the engine's place: what
// is drawn, moved, chosen and told.

import type { Page } from '@playwright/test'
import type { GroundMap } from '../../www/generated/contract'
import { madeUp } from '../fixtures/ground-map.mjs'
import { expect, open, test } from './page'
import { inventedShow, openShow } from './stage-open'

/** Opens the view with this map in the place of the one that the engine would give. */
async function openMap(page: Page, map: GroundMap): Promise<void> {
  await page.addInitScript(given => {
    const Real = globalThis.Worker
    const answers: Readonly<Record<string, unknown>> = {
      stage_map: given,
      stage_map_backwards: [{ circuit: 'c1', stands: { upto: 0.12 }, now: 0.06 }],
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
  await expect(page.locator('.map-frame .lit')).toHaveCount(0)
  const first = page.locator('.map-inputs button').first()
  await first.click()
  await expect(first).toHaveAttribute('aria-expanded', 'true')
  const told = page.locator('.map-about .map-loop')
  await expect(told).toContainText('earth of the venue')
  await expect(told).toContainText('line 1 Line → Stage box 1 → Earth of Circuit 2')
  // Two safety earths and the lead between; down to and along two bars, and through the earth of the venue.
  expect(await pathsIn(page, '.map-frame .lit path.under')).toBe(3 + 4 + 1)
  await expect(page.locator('.map-chosen')).toContainText('Up to 20 mA')
  await expect(page.locator('.map-backwards')).toContainText('120 mV')
  await first.click()
  await expect(page.locator('.map-frame .lit')).toHaveCount(0)
})

/** How many lines are drawn in what are few elements. */
function pathsIn(page: Page, selector: string): Promise<number> {
  return page
    .locator(selector)
    .evaluateAll(paths =>
      paths.map(path => path.getAttribute('d')?.match(/M/g)?.length ?? 0).reduce((a, b) => a + b, 0),
    )
}

test('the picture holds every place and wire, and the earth of the venue', async ({ page }) => {
  await openMap(page, map)
  const circuits = map.places.filter(({ kind }) => kind === 'circuit').length
  expect(await pathsIn(page, '.ground path.box')).toBe(map.places.length - circuits)
  expect(await pathsIn(page, '.map-frame path.way:not(.inner)')).toBe(map.wires.length)
  expect(await pathsIn(page, '.ground path.venue-way')).toBe(circuits)
  await expect(page.locator('.ground .venue-name')).toHaveText('Earth of the venue, at the mains')
})

/** How tall the letters of the picture are on the screen, px. */
function letters(page: Page): Promise<number[]> {
  return page.locator('.map-frame').evaluate(frame => {
    const layer = frame.querySelector('.map-layer')?.getBoundingClientRect()
    const scale = (layer?.width ?? 0) / (frame.querySelector('svg')?.width.baseVal.value ?? 1)
    return [...frame.querySelectorAll('text')].map(text => parseFloat(getComputedStyle(text).fontSize) * scale)
  })
}

test('names can be read at every scale, on a phone too, and the loop that matters most is there first', async ({
  page,
}) => {
  await page.setViewportSize({ width: 360, height: 740 })
  await openMap(page, madeUp(60, 100))
  const names = page.locator('.ground .place-name')
  await expect.poll(() => names.count()).toBeGreaterThan(3)
  for (const key of ['', '-', '-', '0', '+']) {
    if (key !== '') await frame(page).press(key)
    await expect.poll(() => letters(page).then(all => Math.min(...all))).toBeGreaterThan(10.9)
  }
  await frame(page).press('0')
  await page.locator('.map-inputs button').first().click()
  await page.getByRole('button', { name: 'See it in the picture' }).click()
  const seen = await frame(page).boundingBox()
  // All of the loop is in the frame, and its places have names.
  await expect
    .poll(async () => {
      const lit = await page.locator('.map-frame .lit').boundingBox()
      if (lit === null || seen === null) return false
      return lit.x >= seen.x - 1 && lit.x + lit.width <= seen.x + seen.width + 1
    })
    .toBe(true)
  await expect(page.locator('.ground .place-name', { hasText: 'Stage box 1' })).toBeVisible()
})

test('a key says what the lines and marks are', async ({ page }) => {
  await openMap(page, map)
  await page.getByText('What the lines and marks are').click()
  for (const name of [
    'Signal lead',
    'Fibre or light',
    'Safety earth',
    'Rack or other metalwork',
    'Earth of the venue',
  ]) {
    await expect(page.locator('.map-key li', { hasText: name })).toBeVisible()
  }
  // No two kinds of line differ by colour alone.
  const looks = await page
    .locator('.map-key li')
    .evaluateAll(entries =>
      entries.map(entry =>
        [...entry.querySelectorAll('path')]
          .map(path => [
            getComputedStyle(path).strokeDasharray,
            getComputedStyle(path).strokeWidth,
            path.getAttribute('d'),
          ])
          .join(' '),
      ),
    )
  expect(looks.length).toBeGreaterThan(8)
  expect(new Set(looks).size).toBe(looks.length)
})

test('on paper all of the map is there with all its names', async ({ page }) => {
  await openMap(page, map)
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')))
  await page.emulateMedia({ media: 'print' })
  const paper = page.locator('.map-paper')
  await expect(paper.locator('svg')).toBeVisible()
  await expect(frame(page)).toBeHidden()
  const named = map.places.filter(({ kind }) => kind !== 'circuit').length
  await expect(paper.locator('.place-power')).toHaveCount(named)
  await page.emulateMedia({ media: 'screen' })
  await page.evaluate(() => dispatchEvent(new Event('afterprint')))
  await expect(paper).toBeEmpty()
})

/** Waits until the picture stands where it is shown at first. */
async function isThere(page: Page): Promise<void> {
  await expect.poll(() => page.locator('.map-frame .place-name').count()).toBeGreaterThan(3)
}

test('a map that is small enough is whole at first', async ({ page }) => {
  await openMap(page, madeUp(6, 7))
  await isThere(page)
  const [around, inner] = await Promise.all([frame(page).boundingBox(), page.locator('.map-layer').boundingBox()])
  if (around === null || inner === null) throw new Error('there is no picture')
  expect(inner.x).toBeGreaterThan(around.x - 2)
  expect(inner.y).toBeGreaterThan(around.y - 2)
  expect(inner.x + inner.width).toBeLessThan(around.x + around.width + 2)
  expect(inner.y + inner.height).toBeLessThan(around.y + around.height + 2)
})

test('is moved and scaled by keys, mouse and buttons, and fits again', async ({ page }) => {
  await openMap(page, map)
  await isThere(page)
  await frame(page).focus()
  await page.keyboard.press('0')
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
  await expect(page.locator('.map-frame .lit')).toHaveCount(0)
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
  await isThere(page)
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

/** Inputs that are told to have too much hum. */
async function tooLoud(page: Page): Promise<number> {
  const told = await page.locator('.map-verdict').innerText()
  return Number(/too much hum: (\d+)/.exec(told)?.[1] ?? 0)
}

test('what is proposed is done in one step, cures what it said, and is undone in one', async ({ page }) => {
  await openShow(page, inventedShow(), 'map')
  await expect(page.locator('.map-do').first()).toBeEnabled({ timeout: 20_000 })
  const before = await tooLoud(page)
  const told = await page.locator('.map-verdict').innerText()
  const left = Number(/Still too much then: (\d+)/.exec(told)?.[1] ?? 0)
  expect(before).toBeGreaterThan(left)
  await page.locator('.map-do').first().click()
  await expect(page.locator('.map-told')).toContainText('Isolated: ')
  await expect.poll(() => tooLoud(page), { timeout: 20_000 }).toBe(left)
  await page.getByRole('button', { name: 'Undo' }).first().click()
  await expect.poll(() => tooLoud(page), { timeout: 20_000 }).toBe(before)
})

test('how the shield of a link ends is changed on the map, which is solved anew', async ({ page }) => {
  await openShow(page, inventedShow(), 'map')
  await page.getByRole('radio', { name: 'List', exact: true }).check({ timeout: 20_000 })
  const link = page.locator('.map-list').getByRole('button', { name: /^video lead Laptop to projector/ })
  await expect(link).toContainText('shield connected at both ends')
  const loops = page.locator('.map-list h3', { hasText: 'Loops:' })
  const before = Number((await loops.innerText()).replace(/\D/g, ''))
  await link.click()
  await page.getByLabel('How its shield ends').selectOption('fibre or light')
  await expect(link).toContainText('fibre or light, no current', { timeout: 20_000 })
  expect(Number((await loops.innerText()).replace(/\D/g, ''))).toBe(before - 1)
})

test('the list has each box in the lane in which the picture has it', async ({ page }) => {
  await openShow(page, inventedShow(), 'map')
  await page.getByRole('radio', { name: 'List', exact: true }).check({ timeout: 20_000 })
  const apart = page.locator('.map-list h4', { hasText: 'Not on the mains' }).locator('+ ul')
  await expect(apart.getByRole('button')).toHaveText([/Guitar player/])
})

test('the working of an input goes from the earth difference to its decibels', async ({ page }) => {
  await openShow(page, inventedShow(), 'map')
  const first = page.locator('.map-inputs > li').first()
  await first.getByRole('button').first().click({ timeout: 20_000 })
  const figure = parseFloat(await first.locator('.map-figure').innerText())
  await first.getByText('Show the working').click()
  const steps = first.locator('.working .steps').first()
  await expect(steps).toContainText('Impedance around the loop')
  const all = await first.locator('.working').innerText()
  const order = [
    'Earth difference of',
    'with its shield unplugged',
    'Impedance around',
    'Through the shield',
    'A-weighted',
    'From the signal',
  ]
  const places = order.map(text => all.indexOf(text))
  expect(places.every(place => place >= 0)).toBe(true)
  expect(places).toEqual([...places].sort((a, b) => a - b))
  const last = await first.locator('.working .steps .result').last().innerText()
  expect(parseFloat(last.replace(/^\D*/, ''))).toBeCloseTo(figure, 1)
})
