// For everyone: no fault that axe finds on any view of the stage, on a phone and at a
// desk, in every theme; and letters four times as large leave one way to scroll.

import AxeBuilder from '@axe-core/playwright'
import type { Locator, Page } from '@playwright/test'
import { expect, layOut, open, setting, test } from './page'
import { inventedShow, openShow } from './stage-open'

const SIZES = { phone: { width: 360, height: 740 }, desk: { width: 1440, height: 900 } }
const THEMES = ['light', 'dark', 'stage'] as const

for (const [size, viewport] of Object.entries(SIZES)) {
  for (const theme of THEMES) {
    test(`every view on a ${size}, ${theme}`, async ({ page }) => {
      await page.setViewportSize(viewport)
      await openShow(page, inventedShow())
      if (theme !== 'light') await setting(page, theme)
      for (const [name, visit] of VIEWS) {
        await visit(page)
        await layOut(page)
        const views = page.locator('nav.views a')
        const lowest = await views.evaluateAll(all => Math.min(...all.map(one => one.getBoundingClientRect().height)))
        expect(lowest).toBeGreaterThanOrEqual(theme === 'stage' ? 47.5 : 43.5)
        // Of all that axe knows, the contrast alone depends on the colours.
        const axe = new AxeBuilder({ page }).include('.stage').exclude(MANY)
        if (theme === 'light') axe.options({ rules: { 'target-size': { enabled: true } } })
        else axe.withRules('color-contrast')
        const { violations } = await axe.analyze()
        expect(
          violations.map(({ id, nodes }) => [id, nodes.map(({ html, failureSummary }) => [html, failureSummary])]),
          name,
        ).toEqual([])
      }
    })
  }
}

/** A few of a long list stand for all of them; the rest of the page has tests of its own. */
const MANY =
  ':is(.grid-row, .row-cards li, .gear-list li, .map-list li, .packed tr, .power-list [data-row]):nth-child(n + 6):not([data-here=true])'

type Visit = (page: Page) => Promise<void>

/** Every view in turn, each reached from the one before. */
const VIEWS: readonly (readonly [name: string, visit: Visit])[] = [
  ['input list', page => expect(page.locator('.list-count')).toContainText('need attention')],
  ['open row', openRow],
  ['gear', openGear],
  ['power and links', page => goTo(page, 'power', '.power-list')],
  ['packing list', page => goTo(page, 'packing', '.packed')],
  ['ground map', openInput],
  ['ground map as a list', page => page.getByRole('radio', { name: 'List', exact: true }).check()],
  ['show', page => page.getByRole('button', { name: 'Show', exact: true }).click()],
]

async function openRow(page: Page): Promise<void> {
  await page.locator('[data-line=ch-10]').locator('button, [data-column=verdict]').first().click()
  await expect(page.locator('.row-panel .cures .chip').first()).toBeVisible()
}

async function openGear(page: Page): Promise<void> {
  await goTo(page, 'gear', '.gear-list')
  await page.locator('.gear-list summary').first().click()
}

async function openInput(page: Page): Promise<void> {
  await goTo(page, 'map', '.map-frame')
  await page.locator('.map-inputs button').first().click()
}

async function goTo(page: Page, view: string, until: string): Promise<void> {
  await page.locator(`nav.views a[href$="#1/stage/${view}"]`).click()
  await expect(page.locator(until).first()).toBeVisible()
}

test('at 400 % nothing scrolls two ways, and nothing covers what has the focus', async ({ page }) => {
  // 1280 by 1024 pixels, enlarged.
  await page.setViewportSize({ width: 320, height: 256 })
  await openShow(page, inventedShow())
  for (const [name, visit] of VIEWS) {
    await visit(page)
    expect(await page.evaluate(() => document.documentElement.scrollWidth), name).toBe(320)
    if (name === 'open row' || name === 'ground map') expect(await covered(page), name).toEqual([])
  }
})

/** What has the focus on the way through the page, and is hidden by something else. */
async function covered(page: Page): Promise<string[]> {
  const found: string[] = []
  await page.locator('h1').focus()
  for (let stops = 0; stops < 60; stops++) {
    await page.keyboard.press('Tab')
    found.push(...(await page.evaluate(hiddenFocus)))
  }
  return found
}

/** Run in the page. */
function hiddenFocus(): string[] {
  const focused = document.activeElement
  if (focused === null || focused === document.body || focused.closest('header') !== null) return []
  const { left, top, width, height } = focused.getBoundingClientRect()
  const isSeen = [0.1, 0.5, 0.9].some(part => {
    const there = document.elementFromPoint(left + width * part, top + Math.min(height, innerHeight) / 2)
    return there !== null && (focused.contains(there) || there.contains(focused))
  })
  return isSeen ? [] : [focused.outerHTML.slice(0, 200)]
}

test('a show is planned by keys alone, and the focus is always somewhere', async ({ page }) => {
  await page.setViewportSize({ width: 1440, height: 900 })
  await page.addInitScript(() => (window.print = () => dispatchEvent(new Event('beforeprint'))))
  await open(page, '#1/stage')
  await press(page, page.getByRole('button', { name: 'Look at an invented show' }))
  await expect(page.locator('.list-count')).toContainText('need attention: 14')
  await expectFocus(page)

  // A DI in the grid.
  await tabTo(page, page.locator('.input-grid [tabindex="0"]'))
  const cell = (id: string, column: string) => page.locator(`[data-line=${id}] [data-column=${column}]`)
  for (let row = 1; row < 17; row++) await page.keyboard.press('ArrowDown')
  for (let column = 0; column < 5; column++) await page.keyboard.press('ArrowRight')
  await expect(cell('ch-17', 'di')).toBeFocused()
  await page.keyboard.press('Enter')
  await page.keyboard.press('p')
  await page.keyboard.press('Enter')
  await expect(cell('ch-17', 'di')).toHaveText('Passive DI')
  await expect(cell('ch-18', 'di')).toBeFocused()

  // A cure, and back.
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('ArrowLeft')
  await expect(cell('ch-18', 'verdict')).toBeFocused()
  await page.keyboard.press('Enter')
  await press(page, page.locator('.row-panel .cures .chip').first())
  await expect(page.locator('.list-told')).toContainText(/^Changed: /)
  await expectFocus(page)
  await page.keyboard.press('Control+z')
  await expect(page.locator('.stage')).toContainText('Undone: ')
  await expectFocus(page)

  // What an input hums, and the isolation.
  await press(page, page.locator('nav.views a[href$="#1/stage/map"]'), 'Shift+Tab')
  const input = page.locator('.map-inputs button').first()
  await press(page, input)
  await expect(input).toHaveAttribute('aria-expanded', 'true')
  await expectFocus(page)
  await press(page, page.locator('.map-do').first(), 'Shift+Tab')
  await expect(page.getByRole('button', { name: /^Undo: / })).toBeVisible()
  await expectFocus(page)

  // The sheet for the crew.
  await press(page, page.locator('nav.views a[href$="#1/stage/packing"]'), 'Shift+Tab')
  await press(page, page.getByRole('button', { name: 'Print crew sheet' }))
  await expect(page.locator('#paper .crew-sheet')).toHaveCount(1)
  await expectFocus(page)
})

/** Goes to it by Tab, and presses it. */
async function press(page: Page, goal: Locator, way = 'Tab'): Promise<void> {
  await tabTo(page, goal, way)
  await page.keyboard.press('Enter')
}

async function tabTo(page: Page, goal: Locator, way = 'Tab'): Promise<void> {
  await expect(goal).toBeVisible()
  for (let presses = 0; presses < 120; presses++) {
    await page.keyboard.press(way)
    // Past the edge of the page is the browser's own bar.
    if (await page.evaluate(() => document.activeElement === document.body)) continue
    await expectFocus(page)
    if (await goal.evaluate(element => element === document.activeElement)) return
  }
  throw new Error('the keyboard does not reach it')
}

/** Something of the page has the focus, and is seen to have it. */
async function expectFocus(page: Page): Promise<void> {
  await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).not.toBe('BODY')
  const [html, outline] = await page.locator(':focus').evaluate(focused => {
    const shown = focused.matches('[type=radio]') ? (focused.nextElementSibling ?? focused) : focused
    return [focused.outerHTML, focused.matches('h1') ? 'of the page' : getComputedStyle(shown).outlineStyle] as const
  })
  expect(outline, html).not.toBe('none')
}
