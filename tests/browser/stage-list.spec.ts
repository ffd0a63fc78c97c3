// The input list: by keyboard as the W3C's pattern for grids has it, by thumb, and by
// what comes from a spreadsheet.

import AxeBuilder from '@axe-core/playwright'
import type { Locator, Page } from '@playwright/test'
import { expect, test } from './page'
import { inventedShow, openShow, type ShowFile } from './stage-open'

const example = inventedShow()

function row(page: Page, id: string): Locator {
  return page.locator(`[role=row][data-line="${id}"]`)
}

function cell(page: Page, id: string, column: string): Locator {
  return row(page, id).locator(`[data-column="${column}"]`)
}

function told(page: Page): Locator {
  return page.locator('.list-told')
}

/** What a spreadsheet puts on the clipboard, pasted where the focus is. */
async function paste(page: Page, text: string): Promise<void> {
  await page.locator(':focus').evaluate((target, text) => {
    const clipboardData = new DataTransfer()
    clipboardData.setData('text/plain', text)
    target.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }))
  }, text)
}

/** The names of the rows as they stand on the screen. */
function names(page: Page): Promise<string[]> {
  return page.locator('.grid-rows [data-column=name]').allInnerTexts()
}

/** The example with one of its lines otherwise. */
function withLine(id: string, change: Readonly<Record<string, unknown>>): ShowFile {
  return { ...example, lines: example.lines.map(line => (line['id'] === id ? { ...line, ...change } : line)) }
}

test('arrows, Home, End and the page keys move one tab stop, and Tab leaves the grid', async ({ page }) => {
  await openShow(page, example)
  await cell(page, 'ch-1', 'name').click()
  await page.keyboard.press('ArrowDown')
  await expect(cell(page, 'ch-2', 'name')).toBeFocused()
  await page.keyboard.press('ArrowLeft')
  await expect(cell(page, 'ch-2', 'channel')).toBeFocused()
  await page.keyboard.press('End')
  await expect(cell(page, 'ch-2', 'note')).toBeFocused()
  await page.keyboard.press('ArrowRight')
  await expect(cell(page, 'ch-2', 'note')).toBeFocused()
  await page.keyboard.press('Home')
  await page.keyboard.press('PageDown')
  await expect(cell(page, 'ch-12', 'chosen')).toBeFocused()
  await page.keyboard.press('PageUp')
  await expect(cell(page, 'ch-2', 'chosen')).toBeFocused()
  await page.keyboard.press('Control+End')
  await expect(cell(page, 'ch-32', 'note')).toBeFocused()
  await expect(cell(page, 'ch-32', 'note')).toBeInViewport()
  await page.keyboard.press('Control+Home')
  await expect(cell(page, 'ch-1', 'chosen')).toBeFocused()
  await expect(page.locator('.input-grid [tabindex="0"]')).toHaveCount(1)
  await page.keyboard.press('Tab')
  await expect(page.locator('.input-grid :focus')).toHaveCount(0)
})

test('a cell is edited by Enter, F2 or typing; Escape restores', async ({ page }) => {
  await openShow(page, example)
  const name = cell(page, 'ch-1', 'name')
  await name.click()
  await page.keyboard.press('Enter')
  await page.keyboard.type('Kick in')
  await page.keyboard.press('Enter')
  await expect(name).toHaveText('Kick in')
  await expect(cell(page, 'ch-2', 'name')).toBeFocused()
  await page.keyboard.type('Snare')
  await page.keyboard.press('Escape')
  await expect(cell(page, 'ch-2', 'name')).toHaveText('Snare top')
  await expect(cell(page, 'ch-2', 'name')).toBeFocused()
  await page.keyboard.press('F2')
  await page.keyboard.press('End')
  await page.keyboard.type(' close')
  await page.keyboard.press('Tab')
  await expect(cell(page, 'ch-2', 'name')).toHaveText('Snare top close')
  await expect(cell(page, 'ch-2', 'verdict')).toBeFocused()
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(cell(page, 'ch-2', 'name')).toHaveText('Snare top')
  await expect(name).toHaveText('Kick in')
})

test('gear is chosen from the drawer, and the row is worked out again', async ({ page }) => {
  await openShow(page, example)
  await expect(cell(page, 'ch-10', 'verdict')).toContainText('headroom')
  await cell(page, 'ch-10', 'pad').click()
  await page.keyboard.press('Enter')
  const choice = page.getByLabel('Edit: Pad')
  await expect(choice.locator('option')).toHaveText(['none', 'Pad in line, 20 dB'])
  await choice.selectOption('Pad in line, 20 dB')
  await page.keyboard.press('Enter')
  await expect(cell(page, 'ch-10', 'pad')).toHaveText('Pad in line, 20 dB')
  await expect(cell(page, 'ch-10', 'verdict')).toContainText('load only 1.67 times the source, and you want 3')
})

test('rows are chosen, filled down, cleared, moved and deleted together', async ({ page }) => {
  await openShow(page, example)
  await cell(page, 'ch-2', 'patch').click()
  await page.keyboard.type('C7')
  await page.keyboard.press('Enter')
  await page.keyboard.press('ArrowUp')
  await page.keyboard.press('Shift+ArrowDown')
  await page.keyboard.press('Shift+ArrowDown')
  await expect(page.locator('[role=row][aria-selected=true]')).toHaveCount(3)
  await page.keyboard.press('Control+d')
  await expect(cell(page, 'ch-3', 'patch')).toHaveText('C8')
  await expect(cell(page, 'ch-4', 'patch')).toHaveText('C9')
  await page.keyboard.press('Delete')
  await expect(cell(page, 'ch-4', 'patch')).toHaveText('')
  await expect(cell(page, 'ch-5', 'patch')).toHaveText('A5')
  await page.keyboard.press('Alt+ArrowUp')
  expect((await names(page)).slice(0, 4)).toEqual(['Snare top', 'Snare bottom', 'Rack tom', 'Kick'])
  await page.keyboard.press('Alt+ArrowUp')
  await expect(told(page)).toHaveText('There is no room to move further.')
  await page.getByRole('button', { name: 'Delete lines' }).click()
  await expect(page.getByText('Lines: 29')).toBeVisible()
  await page.keyboard.press('Control+a')
  await expect(page.locator('[role=row][aria-selected=true]')).toHaveCount(29)
  await page.keyboard.press('Escape')
  await page.keyboard.press('Space')
  await expect(page.locator('[role=row][aria-selected=true]')).toHaveCount(1)
})

test('copied rows are a table that comes back as rows', async ({ page, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  await openShow(page, example)
  await cell(page, 'ch-17', 'name').click()
  await page.keyboard.press('Shift+ArrowDown')
  await page.keyboard.press('Control+c')
  await expect(told(page)).toHaveText('Lines copied: 2')
  const text = await page.evaluate(() => navigator.clipboard.readText())
  expect(text.split('\r\n').map(line => line.split('\t').slice(0, 3))).toEqual([
    ['Channel', 'Name', 'Source'],
    ['17', 'Keys L', 'Keyboard output'],
    ['18', 'Keys R', 'Keyboard output'],
    [''],
  ])
  await page.keyboard.press('Control+v')
  await expect(told(page)).toHaveText('Lines added from the table: 2')
  await expect(page.getByText('Lines: 34')).toBeVisible()
  // They are a pair of their own.
  await page.keyboard.press('Control+End')
  await expect(page.locator('.grid-row').last().locator('[data-column=pair]')).toHaveText('17 Keys L')
})

test('a table with a head adds rows, and tells row by row what is wrong', async ({ page }) => {
  await openShow(page, example)
  await cell(page, 'ch-1', 'name').click()
  await paste(
    page,
    'Channel\tName\tSource\tDI\n41\tFlute\tFiddle, piezo\tpassive-di\n42\tHarp\tNo such harp\tpassive-di\n',
  )
  await expect(told(page)).toHaveText('Lines added from the table: 2')
  await expect(page.locator('.list-problems')).toContainText(
    'Table, row 3, source: “No such harp” is not in the drawer',
  )
  await page.keyboard.press('Control+End')
  const harp = page.locator('.grid-row').last()
  await expect(harp.locator('[data-column=name]')).toHaveText('Harp')
  await expect(harp.locator('[data-column=di]')).toHaveText('Passive DI')
  // What is not there is kept, and marked.
  await expect(harp.locator('[data-column=source]')).toContainText('No such harp')
  await expect(harp.locator('[data-column=source]')).toHaveAttribute('aria-invalid', 'true')
})

test('a table without a head fills cells from the cursor on', async ({ page }) => {
  await openShow(page, example)
  await cell(page, 'ch-31', 'di').click()
  await paste(page, 'active di\tBass amplifier\npassive-di\tNobody\nActive DI\t\n')
  await expect(told(page)).toHaveText('Cells filled: 6')
  await expect(cell(page, 'ch-31', 'di')).toHaveText('Active DI')
  await expect(cell(page, 'ch-31', 'thru')).toHaveText('Bass amplifier')
  await expect(cell(page, 'ch-32', 'di')).toHaveText('Passive DI')
  await expect(page.locator('.list-problems')).toContainText('Row 2, Thru: there is no “Nobody” in this show')
  // What reaches beyond the list makes it longer.
  await expect(page.getByText('Lines: 33')).toBeVisible()
  await cell(page, 'ch-1', 'split').click()
  await paste(page, 'sideways')
  await expect(page.locator('.list-problems')).toContainText('Row 1, Split: “sideways” is not one of the choices')
  await expect(cell(page, 'ch-1', 'split')).toHaveText('')
})

test('a table makes a list of an empty one', async ({ page }) => {
  await openShow(page, { ...example, lines: [] })
  await page.getByRole('button', { name: 'Add a line' }).focus()
  await paste(page, '1\tKick\tDrum microphone, dynamic\n2\tSnare\n')
  await expect(page.getByText('Lines: 2')).toBeVisible()
  expect(await names(page)).toEqual(['Kick', 'Snare'])
  await expect(page.locator('.grid-rows [data-column=source]').first()).toHaveText('Drum microphone, dynamic')
})

test('a cell with a tab, quotation marks and a formula comes as it was', async ({ page }) => {
  await openShow(page, example)
  await cell(page, 'ch-1', 'name').click()
  await paste(page, `"two\n""lines"""\n'=1+1\n-10 dBV`)
  await expect(told(page)).toHaveText('Cells filled: 3')
  expect((await names(page)).slice(0, 3)).toEqual(['two "lines"', '=1+1', '-10 dBV'])
})

test('only rows that miss something, and the count on top', async ({ page }) => {
  await openShow(page, example)
  const count = page.locator('.list-count')
  await expect(count).toContainText('fine: 18')
  await expect(count).toContainText('need attention: 14')
  await page.getByRole('button', { name: 'Only lines that need attention' }).click()
  // With the row of the cursor.
  await expect(page.locator('.grid-rows .grid-row')).toHaveCount(15)
})

test('a reference to what is not there is told at its cell and beneath its field', async ({ page }) => {
  await openShow(page, withLine('ch-2', { di: 'lost-di' }))
  await expect(cell(page, 'ch-2', 'di')).toHaveAttribute('aria-invalid', 'true')
  await cell(page, 'ch-2', 'verdict').click()
  const panel = page.locator('.row-panel')
  await expect(panel.getByText('“lost-di” is not in the drawer')).toBeVisible()
  await panel.getByLabel('DI', { exact: true }).selectOption('none')
  await expect(panel.getByText('“lost-di” is not in the drawer')).toBeHidden()
  await expect(cell(page, 'ch-2', 'di')).not.toHaveAttribute('aria-invalid')
})

test('a value that makes no sense is told beneath it', async ({ page }) => {
  await openShow(page, withLine('ch-32', { values: { run_length: 'far' } }))
  await expect(page.locator('.list-count')).toContainText('not worked out: 1')
  await cell(page, 'ch-32', 'verdict').click()
  const own = page.locator('.row-panel .own-value')
  await expect(own.locator('.problem').first()).toBeVisible()
  await own.getByLabel('Length of the run').fill('20 m')
  await expect(own.locator('.problem')).toHaveCount(0)
  await expect(cell(page, 'ch-32', 'verdict').locator('[data-grade=fine]')).toBeVisible()
})

test('one tap cures a row, with gear of the drawer where there is such', async ({ page }) => {
  await openShow(page, example)
  await cell(page, 'ch-17', 'verdict').click()
  const panel = page.locator('.row-panel')
  // All at once, what the drawer has before what it has not, each with what it comes to.
  const cures = panel.locator('.row-cures li')
  await expect(cures.first()).toContainText('from your gear')
  await expect(cures.first()).toContainText('Fixes: unbalanced lead')
  const texts = await cures.allInnerTexts()
  const toGet = texts.findIndex(text => text.includes('not in your drawer'))
  if (toGet >= 0) expect(texts.slice(toGet).every(text => text.includes('not in your drawer'))).toBe(true)
  await panel.getByRole('button', { name: 'Use Passive DI from your gear', exact: true }).click()
  await expect(told(page)).toContainText('Changed: Use Passive DI from your gear')
  await expect(cell(page, 'ch-17', 'di')).toHaveText('Passive DI')
  await expect(panel.locator('.own-value')).toHaveCount(0)
  // What no gear has is a value of the row, and what was told of another is gone.
  await cell(page, 'ch-10', 'verdict').click()
  await expect(told(page)).not.toContainText('Changed')
  await panel.getByRole('button', { name: /^Turn the source down/ }).click()
  await expect(panel.locator('.own-value').getByLabel('Source level, open')).toHaveValue('−3 dBu')
  await expect(cell(page, 'ch-10', 'verdict')).toContainText('headroom 6.1 dB, 0.1 dB better than your 6 dB')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(cell(page, 'ch-10', 'verdict').locator('[data-grade=misses]')).toBeVisible()
  // What is undone is not told any more, whatever is done next.
  await expect(told(page)).not.toContainText('Changed')
  await panel.getByLabel('Note').fill('spare lead')
  await expect(page.getByRole('button', { name: 'Redo' })).toBeDisabled()
  await expect(told(page)).not.toContainText('Changed')
})

test('a row opens as a whole line, and what is set there comes back', async ({ page }) => {
  await openShow(page, example)
  await cell(page, 'ch-10', 'verdict').click()
  await page.getByRole('link', { name: 'Show as a whole line' }).click()
  const bar = page.locator('.line-bar')
  await expect(bar).toContainText('Line 10 Bass amplifier of An invented touring show')
  await expect(page.locator('[data-reading=margin] bdi').first()).toHaveText('3.1 dB')
  await bar.getByRole('link', { name: 'Back to the list' }).click()
  await expect(page.locator('.row-panel h3')).toHaveText('10 Bass amplifier')
  await expect(page.locator('.row-panel .own-value')).toHaveCount(0)
  await page.getByRole('link', { name: 'Show as a whole line' }).click()
  await page.locator('[data-field=run_length] input[type=text]').fill('25 m')
  await page.locator('.line-bar').getByRole('link', { name: 'Save these values to the line' }).click()
  await expect(told(page)).toHaveText('Values put into 10 Bass amplifier: 1')
  await expect(page.locator('.row-panel .own-value').getByLabel('Length of the run')).toHaveValue('25 m')
})

test('rows are added, copied, paired and joined', async ({ page }) => {
  await openShow(page, example)
  await cell(page, 'ch-16', 'name').click()
  await page.getByRole('button', { name: 'Make a stereo pair of this' }).click()
  await expect(cell(page, 'ch-16', 'name')).toHaveText('Fiddle microphone L')
  expect((await names(page))[16]).toBe('Fiddle microphone R')
  await expect(cell(page, 'ch-16', 'pair')).toHaveText('33 Fiddle microphone R')
  await cell(page, 'ch-2', 'chosen').click()
  await cell(page, 'ch-3', 'chosen').click()
  await page.getByRole('button', { name: 'Join as a stereo pair' }).click()
  await expect(cell(page, 'ch-2', 'pair')).toHaveText('3 Snare bottom')
  await expect(cell(page, 'ch-3', 'pair')).toHaveText('2 Snare top')
  await page.getByRole('button', { name: 'Duplicate' }).click()
  await expect(page.getByText('Lines: 35')).toBeVisible()
  await page.keyboard.press('Escape')
  await cell(page, 'ch-32', 'name').click()
  await page.getByRole('button', { name: 'Add a line' }).click()
  await page.keyboard.type('Spare')
  await page.keyboard.press('Enter')
  const spare = page.locator('.grid-row').last()
  await expect(spare.locator('[data-column=name]')).toHaveText('Spare')
  await expect(spare.locator('[data-column=patch]')).toHaveText('B17')
  await expect(spare.locator('[data-column=destination]')).toHaveText('Front-of-house console')
})

test('of 500 rows all are reached, and those in view are drawn', async ({ page }) => {
  const lines = Array.from({ length: 500 }, (_, place) => ({
    ...example.lines[place % 2],
    id: `l${place + 1}`,
    channel: `${place + 1}`,
  }))
  await openShow(page, { ...example, lines })
  await cell(page, 'l1', 'name').click()
  await page.keyboard.press('Control+End')
  await expect(cell(page, 'l500', 'note')).toBeFocused()
  await page.keyboard.press('PageUp')
  await expect(cell(page, 'l490', 'note')).toBeFocused()
  await page.keyboard.type('far down')
  await page.keyboard.press('Enter')
  await expect(cell(page, 'l490', 'note')).toHaveText('far down')
  expect(await page.locator('.grid-row').count()).toBeLessThan(70)
})

/** What axe finds wrong in the list; the rest of the page has tests of its own. */
async function faults(page: Page): Promise<unknown> {
  const axe = new AxeBuilder({ page }).include('.input-list').options({ rules: { 'target-size': { enabled: true } } })
  const { violations } = await axe.analyze()
  return violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])
}

test('axe finds no fault in the grid and the row beside it', async ({ page }) => {
  // A few rows have all that many have.
  await openShow(page, {
    ...withLine('ch-2', { di: 'lost-di' }),
    lines: withLine('ch-2', { di: 'lost-di' }).lines.slice(0, 4),
  })
  await cell(page, 'ch-2', 'verdict').click()
  await page.keyboard.press('Space')
  await expect(page.locator('.row-panel')).toBeVisible()
  expect(await faults(page)).toEqual([])
  await page.emulateMedia({ colorScheme: 'dark' })
  expect(await faults(page)).toEqual([])
})

test.describe('on a phone', () => {
  test.use({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true })

  test('a tap opens a row, and the thumb goes through them', async ({ page }) => {
    await openShow(page, example)
    await page.locator('[data-line=ch-10] button').tap()
    const panel = page.locator('.row-panel')
    await expect(panel.locator('h3')).toBeFocused()
    await expect(panel.locator('h3')).toHaveText('10 Bass amplifier')
    expect(await faults(page)).toEqual([])
    await panel.getByRole('button', { name: 'Previous line' }).tap()
    await expect(panel.locator('h3')).toHaveText('9 Bass DI')
    await panel.getByLabel('Name', { exact: true }).fill('Bass')
    await panel.getByRole('button', { name: 'Next line' }).tap()
    await panel.getByRole('button', { name: /^Turn the source down/ }).tap()
    await expect(panel.locator('[data-grade=misses]')).toHaveCount(0)
    await panel.getByRole('button', { name: 'Close' }).tap()
    await expect(page.locator('[data-line=ch-10] button')).toBeFocused()
    await expect(page.locator('[data-line=ch-9]')).toContainText('Bass, passive → Passive DI → Stage box A9')
    const width = await page.evaluate(() => document.documentElement.scrollWidth)
    expect(width).toBe(360)
  })

  test('several rows are chosen by taps', async ({ page }) => {
    await openShow(page, example)
    await page.getByRole('button', { name: 'Choose lines' }).tap()
    for (const id of ['ch-1', 'ch-3', 'ch-5']) await page.locator(`[data-line=${id}] button`).tap()
    await expect(page.getByRole('group', { name: 'Lines' })).toContainText('Lines chosen: 3')
    await page.getByRole('button', { name: 'Delete lines' }).tap()
    await expect(page.getByText('Lines: 29')).toBeVisible()
    await page.getByRole('button', { name: 'Undo' }).tap()
    await expect(page.getByText('Lines: 32')).toBeVisible()
  })
})
