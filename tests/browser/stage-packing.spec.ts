// What a show takes along, what is proposed for it, and its list as a table and on paper.

import AxeBuilder from '@axe-core/playwright'
import jsQr from 'jsqr'
import { PDFDocument } from 'pdf-lib'
import { PNG } from 'pngjs'
import { readFileSync } from 'node:fs'
import type { Locator, Page } from '@playwright/test'
import type { InputLine, Show } from '../../www/generated/contract'
import { expect, open, setting, test } from './page'
import { inventedShow, openShow } from './stage-open'

/** Nobody reads smaller letters on paper, in points. */
const LEAST = 8

test('counts what the lines use against the drawer', async ({ page }) => {
  const show = inventedShow()
  await openShow(page, show, 'packing')
  for (const { id, name, kind, count } of show.gear) {
    if (kind === 'lead') continue
    const used = show.lines.filter(line => ['source', 'di', 'pad', 'input'].some(part => has(line, part, id)))
    const row = page
      .locator('.packed')
      .first()
      .getByRole('row', { name: new RegExp(`^${escaped(name ?? '')} `) })
    if (used.length === 0) await expect(row).toHaveCount(0)
    else await expect(row.getByRole('cell')).toHaveText([`${used.length}`, `${count}`, /enough/])
  }
  await expect(page.locator('.lacking')).toHaveText(/Nothing is missing\.$/)
  await expect(page.locator('.supplies')).toContainText('can give 200\u00a0mA')
  const { violations } = await new AxeBuilder({ page }).include('.packing').analyze()
  expect(violations).toEqual([])
})

// Counted by hand: see the same in the tests of the engine.
test('leads are counted with splits, thrus and links, and joined where the drawer has no such piece', async ({
  page,
}) => {
  await openShow(page, inventedShow(), 'packing')
  const leads = page.locator('.packed').nth(1)
  const counted = (length: string) => leads.getByRole('row', { name: new RegExp(`^${length} `) }).getByRole('cell')
  await expect(counted('3\\sm')).toHaveText(['8', '8', /enough/])
  await expect(counted('6\\sm')).toHaveText(['4', '4', /enough/])
  await expect(counted('5\\sm')).toHaveText(['4', '20', /enough/])
  await expect(counted('10\\sm')).toHaveText(['36', '36', /enough/])
  const places = page.locator('.places')
  const made = (what: RegExp) => places.getByRole('row', { name: what }).getByRole('cell')
  await expect(made(/^10\sm, run/)).toHaveText(['31', /^31 × 10\sm$/])
  await expect(made(/^20\sm, run/)).toHaveText(['1', /^20\sm: from 2 × 10\sm: 32 · Audience$/])
  await expect(made(/^10\sm, to second destination \(not stated/)).toHaveText([
    '5',
    /3 × 10\sm10\sm: from 2 × 5\sm: 30 · Drum vocal, 31 · Talk$/,
  ])
  await expect(made(/^5\sm, thru to amplifier/)).toHaveText(['2', /^2 × 6\sm$/])
  await expect(page.locator('.splits li')).toHaveText([
    '4 × splitter channel, transformer',
    '1 × splitter channel, direct',
  ])
  await expect(page.locator('.links li')).toHaveText([
    /^1 × network lead, fibre or light: Stage box to console \(Stage box – Front-of-house console\)$/,
    /^1 × video lead: Laptop to projector \(Laptop – Projector\)$/,
    /^1 × USB lead: Laptop to interface/,
    /^1 × signal lead: In-ear mixes/,
  ])
})

test('says which leads are missing, and which are from no drawer', async ({ page }) => {
  const show = inventedShow()
  for (const gear of show.gear) if (gear.kind === 'lead') gear.count = gear.id === 'mic-10' ? 30 : 0
  await openShow(page, show, 'packing')
  // 36 of 10 m and one of 20 m out of 30: two for the long one would leave one more missing.
  await expect(page.locator('.lacking')).toContainText(/8 × Instrument lead, 3\sm, 2 × Instrument lead, 6\sm/)
  await expect(page.locator('.lacking')).toContainText(/1 × Microphone lead, 20\sm/)
  const row = page
    .locator('.packed')
    .nth(1)
    .getByRole('row', { name: /^10\sm / })
  await expect(row.getByRole('cell')).toHaveText(['36', '30', /missing: 6/])
})

test('leads that no gear stands for are counted as such', async ({ page }) => {
  const show = inventedShow()
  const [first] = show.lines
  if (first === undefined) throw new Error('no line')
  await openShow(page, { ...show, lines: [{ ...first, run: '', values: { run_length: '12 m' } }] }, 'packing')
  const leads = page.locator('.packed').nth(1)
  await expect(leads).toContainText('No lead from the drawer')
  await expect(leads.getByRole('row', { name: /^12\sm / }).getByRole('cell')).toHaveText(['1', '–', /not counted/])
  await expect(page.locator('.lacking')).toContainText('Nothing that is counted is missing.')
})

test('says first what is missing, and which supply is asked for too much', async ({ page }) => {
  const show = inventedShow()
  for (const gear of show.gear) if (gear.id === 'passive-di') gear.count = 0
  for (const one of show.equipment) if (one.id === 'stage-box') one.phantom_most = '20 mA'
  await openShow(page, show, 'packing')
  await expect(page.locator('.lacking')).toContainText('1 × Passive DI')
  await expect(page.getByRole('row', { name: /^Passive DI / })).toContainText('missing: 1')
  await expect(page.locator('.supplies')).toContainText('can give 20\u00a0mA; 7\u00a0mA too much is asked of it')
  await expect(page.locator('.supplies').getByRole('img', { name: 'Trouble:' })).toBeVisible()
})

test('an empty list has nothing to pack', async ({ page }) => {
  await openShow(page, { ...inventedShow(), lines: [] }, 'packing')
  await expect(page.locator('.packing')).toContainText('The input list is empty.')
  await expect(page.getByRole('button', { name: 'Print' })).toHaveCount(0)
})

test('the proposal keeps what it promises when it is taken, as one step', async ({ page }) => {
  await openShow(page, inventedShow())
  await page.getByRole('button', { name: 'Propose DIs' }).click()
  const count = (name: string) => page.locator('.counts > div').filter({ hasText: name }).locator('dd')
  await expect(count('Limits missed as proposed')).toHaveText(/\d/)
  await expect(count('Limits missed now')).not.toHaveText('0')
  const [now, then] = [await count('Limits missed now').textContent(), await count('as proposed').textContent()]
  expect(Number(then)).toBeLessThan(Number(now))
  await expect(page.locator('.list-tool')).toContainText(/Proved|Best found/)
  await expect(page.locator('.list-tool')).toContainText('Missing in the drawer: 3 × Passive DI.')
  const changes = page.locator('.proposed li')
  const all = await changes.count()
  await page.getByRole('button', { name: `Take all (${all})` }).click()
  await expect(changes).toHaveCount(0)
  await expect(count('Limits missed now')).toHaveText(then ?? '')
  await expect(page.locator('.list-tool')).toContainText('Undo takes it back.')
  await undo(page)
  await expect(changes).toHaveCount(all)
  await expect(count('Limits missed now')).toHaveText(now ?? '')
})

test('the proposal is taken line by line', async ({ page }) => {
  await openShow(page, inventedShow())
  await page.getByRole('button', { name: 'Propose DIs' }).click()
  const line = page.locator('.proposed [data-line="ch-17"]')
  await expect(line).toContainText('Active DI')
  const all = await page.locator('.proposed li').count()
  await line.getByRole('button', { name: 'Take 17 · Keys L' }).click()
  await expect(page.locator('.proposed li')).toHaveCount(all - 1)
  await expect(line).toHaveCount(0)
  await undo(page)
  await expect(line).toBeVisible()
  const { violations } = await new AxeBuilder({ page }).include('.list-tools').analyze()
  expect(violations).toEqual([])
})

test('a table as the reader says, with its flaws by row and the rest of it taken', async ({ page }) => {
  await openShow(page, inventedShow())
  await paste(page, 'Channel;Name;Source;DI\n33;Accordion;Condenser microphone;\n34;Harp;No such thing;Passive DI\n')
  await expect(page.getByRole('radio', { name: 'semicolon' })).toBeChecked()
  await expect(preview(page)).toHaveText([
    '33',
    'Accordion',
    'Condenser microphone',
    '',
    '34',
    'Harp',
    'No such thing',
    'Passive DI',
  ])
  await expect(page.locator('.flaws')).toContainText('row 3, source: “No such thing” is not in the drawer')
  // Told otherwise, it is no table of ours.
  await page.locator('.dialect label').filter({ hasText: 'tab' }).click()
  await expect(page.locator('.list-tool')).toContainText('Rows read: 0')
  await expect(page.getByRole('button', { name: 'Replace the list' })).toHaveCount(0)
  await page.locator('.dialect label').filter({ hasText: 'semicolon' }).click()
  await page.getByRole('button', { name: 'Add to the list' }).click()
  await expect(page.locator('.list-tool')).toContainText('Lines added from a table: 2')
  expect(await written(page)).toHaveLength(1 + 32 + 2)
  await undo(page)
  await expect.poll(async () => (await written(page)).length).toBe(1 + 32)
})

test('a table of the letters that spreadsheets write', async ({ page }) => {
  await openShow(page, inventedShow())
  const text = 'Channel\tName\r\n1\tPiñata – grün\r\n'
  const little = Buffer.from(`\ufeff${text}`, 'utf16le')
  for (const buffer of [little, Buffer.from(little).swap16(), Buffer.from(text), Buffer.from(`\ufeff${text}`)]) {
    await choose(page, buffer)
    await expect(page.getByRole('radio', { name: 'tab' })).toBeChecked()
    await expect(preview(page)).toHaveText(['1', 'Piñata – grün'])
    await expect(page.locator('.list-tool .problem')).toHaveCount(0)
  }
  await choose(page, Buffer.from(text, 'latin1'))
  await expect(page.locator('.list-tool .problem')).toContainText('row 2: the file is neither UTF-8 nor UTF-16')
  await expect(preview(page).first()).toHaveText('1')
})

test('half a table, an empty one, and one without a head', async ({ page }) => {
  await openShow(page, inventedShow())
  await paste(page, 'Channel,Name\n1,Kick\n2,"Sna')
  await expect(page.locator('.flaws')).toContainText('row 3: a quotation mark is never closed')
  await expect(page.locator('.list-tool')).toContainText('Rows read: 2')
  await paste(page, '12,14\n13,15\n')
  await expect(page.locator('.flaws')).toContainText('the first row names no column')
  await choose(page, Buffer.from(''))
  await expect(page.locator('.list-tool')).toContainText('The file is empty.')
})

test('a table of ten thousand rows, of which a show takes two thousand', async ({ page }) => {
  await openShow(page, inventedShow())
  const rows = Array.from({ length: 10_000 }, (_, place) => `${place + 1},Input ${place + 1}`)
  await choose(page, Buffer.from(`Channel,Name\n${rows.join('\n')}\n`))
  await expect(page.locator('.list-tool')).toContainText('Rows read: 2000')
  await expect(page.locator('.flaws')).toContainText('of which the first 2000 were taken')
  await expect(page.locator('.list-tool')).toContainText('the first 1968 fit')
  await page.getByRole('button', { name: 'Add to the list' }).click()
  await expect(page.locator('.list-tool')).toContainText('Lines added from a table: 1968')
  const lines = await written(page)
  expect(lines).toHaveLength(1 + 2000)
  expect(lines.at(-1)).toContain('Input 1968')
})

test('a table that went out comes in as it was', async ({ page }) => {
  const show = inventedShow()
  const [first, second] = show.lines
  if (first !== undefined) first.note = '=1+1'
  if (second !== undefined) second.note = 'says "go", then\nwaits; or not'
  await openShow(page, show)
  for (const separator of ['comma', 'semicolon']) {
    await between(page, separator)
    const text = (await written(page)).join('\n')
    expect(text).toContain("'=1+1")
    await choose(page, Buffer.from(text))
    await expect(page.getByRole('radio', { name: separator }).first()).toBeChecked()
    await expect(page.locator('.list-tool')).toContainText('Rows read: 32. To check: 0.')
    await page.getByRole('button', { name: 'Replace the list' }).click()
    await expect(page.locator('.list-tool')).toContainText('lines: 32')
    await between(page, separator)
    expect((await written(page)).join('\n')).toBe(text)
  }
})

test('a table goes by way of the clipboard', async ({ page, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  await openShow(page, inventedShow())
  await tool(page, 'Export table')
  await page.getByRole('button', { name: 'Copy for a spreadsheet' }).click()
  await expect(page.getByText('Copied.')).toBeVisible()
  await paste(page, await page.evaluate(() => navigator.clipboard.readText()))
  await expect(page.getByRole('radio', { name: 'tab' })).toBeChecked()
  await expect(page.locator('.list-tool')).toContainText('Rows read: 32. To check: 0.')
  await expect(preview(page).nth(2)).toHaveText('Drum microphone, dynamic')
})

test('the sheet for the crew has every line, its power and its cautions', async ({ page }) => {
  const show = inventedShow()
  for (const line of show.lines) if (line.patch?.startsWith('B')) line.stage_box = ''
  await openShow(page, show, 'packing')
  const sheet = await paper(page, 'Print crew sheet')
  await expect(sheet.getByRole('heading', { level: 1 })).toHaveText(show.name)
  await expect(sheet.locator('header')).toContainText(/\d{4}-\d\d-\d\d/)
  await expect(sheet.locator('table')).toHaveCount(2)
  await expect(sheet.getByRole('heading', { level: 2 })).toHaveText(['Stage box', 'No stage box', 'Power'])
  for (const { channel, name, patch } of show.lines) {
    const row = sheet
      .locator('tbody tr')
      .filter({ has: page.locator('[data-column=channel]', { hasText: new RegExp(`^${channel}$`) }) })
    await expect(row.locator('[data-column=name]')).toHaveText(name ?? '')
    await expect(row.locator('[data-column=patch]')).toHaveText(patch ?? '')
  }
  await expect(sheet.locator('tr', { hasText: 'Hat' })).toContainText('48 V')
  await expect(sheet.getByRole('columnheader', { name: 'DI, isolator, pad' }).first()).toBeVisible()
  const cell = (channel: string, column: string) =>
    sheet
      .locator('tbody tr')
      .filter({ has: page.locator('[data-column=channel]', { hasText: new RegExp(`^${channel}$`) }) })
      .locator(`[data-column=${column}]`)
  await expect(cell('9', 'lead')).toHaveText(/^Instrument lead, 3\sm$/)
  await expect(cell('9', 'box')).toHaveText('Passive DI, ground lift on')
  await expect(cell('9', 'thru')).toHaveText(/^Bass amplifier; Instrument lead, 6\sm$/)
  await expect(cell('14', 'lead')).toHaveText(/^Instrument lead, 6\sm$/)
  await expect(cell('14', 'box')).toHaveText('Active DI, ground lift off')
  await expect(cell('23', 'box')).toHaveText('Line isolator, 1:1')
  await expect(cell('1', 'box')).toHaveText('Pad in line, 20 dB')
  await expect(cell('32', 'run')).toHaveText(/^Microphone lead, 20\sm: from 2 × 10\sm$/)
  await expect(cell('31', 'note')).toHaveText(/^transformer split to Monitor console, 10\sm: from 2 × 5\sm$/)
  await expect(sheet.locator('tr', { hasText: 'Lead vocal' })).toContainText('transformer split to Monitor console')
  await expect(sheet).toContainText('Never lift, cut or bypass a safety earth')
  // Once is enough.
  await expect(sheet.getByText('Never lift, cut or bypass')).toHaveCount(1)
  await expect(sheet).toContainText('earth difference 60 mV')
  await expect(sheet.locator('thead').first()).toHaveCSS('display', 'table-header-group')
  await readable(sheet)
  expect(await pages(page)).toBe(2)
  await expect(page.locator('#paper')).toHaveCount(0)
  await expect(page.getByRole('button', { name: 'Print crew sheet' })).toBeVisible()
})

test('the packing list fits a page', async ({ page }) => {
  await openShow(page, inventedShow(), 'packing')
  const list = await paper(page, 'Print packing list')
  await expect(list).toContainText('Nothing is missing.')
  await expect(list).toContainText(/20\sm: from 2 × 10\sm/)
  await expect(list.locator('button')).toHaveCount(0)
  await readable(list)
  expect(await pages(page)).toBe(1)
})

for (const [format, width] of Object.entries({ A4: 190, Letter: 195.9 })) {
  test(`nothing is cut on ${format}`, async ({ page }) => {
    const show = inventedShow()
    // Long names, in all columns.
    for (const gear of show.gear) gear.name = `${gear.name}, the one in the second case with the yellow tape`
    await openShow(page, show, 'packing')
    for (const name of ['Print crew sheet', 'Print packing list', 'Print labels']) {
      const sheet = await paper(page, name)
      // Between margins of 10 mm.
      await page.setViewportSize({ width: Math.floor((width / 25.4) * 96), height: 900 })
      const cut = await sheet.locator('*').evaluateAll(all => {
        const edge = document.documentElement.clientWidth + 0.5
        return all.filter(one => one.getBoundingClientRect().right > edge).map(one => one.outerHTML.slice(0, 90))
      })
      expect(cut, name).toEqual([])
      if (name !== 'Print labels') {
        for (const row of await sheet.locator('tr').all()) await expect(row).toHaveCSS('break-inside', 'avoid')
        for (const head of await sheet.locator('thead').all())
          await expect(head).toHaveCSS('display', 'table-header-group')
      }
      await page.evaluate(() => dispatchEvent(new Event('afterprint')))
      await page.emulateMedia({ media: null })
    }
  })
}

test('whatever begins like a formula goes out with an apostrophe and comes in without', async ({ page }) => {
  const show = inventedShow()
  const beginnings = ['=', '+', '-', '@', "'=", "''-", '=HYPERLINK("x")&', '-1+1;', '+cmd|', '@SUM(1,2) ']
  for (const [place, line] of show.lines.entries()) {
    const beginning = beginnings[place % beginnings.length] ?? ''
    line.name = `${beginning}name ${place}`
    line.note = `${beginning}note, "so"`
    line.patch = `${beginning}${place}`
    line.values = { ...line.values, emf: '-10 dBV', ein: '-126 dBu', headroom: '+4' }
  }
  await openShow(page, show)
  const before = await savedLines(page)
  for (const separator of ['comma', 'semicolon']) {
    await between(page, separator)
    const text = (await written(page)).join('\r\n')
    const sign = separator === 'comma' ? ',' : ';'
    const cells = text.split(new RegExp(`\r\n|${sign}`)).map(cell => cell.replace(/^"/, ''))
    // No cell is left that a spreadsheet would compute; quantities are none.
    const computed = cells.filter(cell => /^[=@]|^[+-](?!\d+([.,]\d+)?( ?[A-Za-z]+)?$)/.test(cell))
    expect(computed).toEqual([])
    expect(cells.filter(cell => cell === '-10 dBV')).toHaveLength(32)
    await choose(page, Buffer.from(text))
    await expect(page.locator('.list-tool')).toContainText('Rows read: 32. To check: 0.')
    await page.getByRole('button', { name: 'Replace the list' }).click()
    await expect(page.locator('.list-tool')).toContainText('lines: 32')
    expect(await savedLines(page)).toEqual(before)
  }
})

test('in feet for who wants them: sheet, packing list, labels, tables out and in', async ({ page }) => {
  const show = inventedShow()
  // A length that names no unit is in metres in the file, and in the reader's unit in a table.
  for (const line of show.lines) if (line.id === 'ch-31') line.values = { run_length: '20' }
  await openShow(page, show)
  const before = await savedLines(page)
  await setting(page, 'feet')
  await page.getByRole('button', { name: 'Settings' }).click()
  const text = (await written(page)).join('\n')
  // 20 m are 65.6168 ft; what names its unit stays as it is.
  expect(text).toMatch(/,ch-31,65\.6168\d*\sft\n/)
  expect(text).toMatch(/,ch-32,20\sm$/)
  await choose(page, Buffer.from(`${text}\n`.replace(/(,ch-30,)\n/, '$1 50\n')))
  await expect(page.locator('.list-tool')).toContainText('To check: 0.')
  await page.getByRole('button', { name: 'Replace the list' }).click()
  await expect(page.locator('.list-tool')).toContainText('lines: 32')
  const after = await savedLines(page)
  expect(after.map(line => ({ ...line, values: {} }))).toEqual(before.map(line => ({ ...line, values: {} })))
  await page.locator('nav.views a[href$="#1/stage/packing"]').click()
  await expect(page.locator('.places').getByRole('row', { name: /^50\sft, run/ })).toHaveCount(1)
  await expect(
    page
      .locator('.places')
      .getByRole('row', { name: /^65\.6\sft, run/ })
      .getByRole('cell')
      .first(),
  ).toHaveText('2')
  await page.locator('nav.views a[href$="#1/stage/packing"]').click()
  await expect(page.locator('.places')).toContainText(/65\.6\sft: from 2 × 32\.8\sft/)
  await expect(page.locator('.packed').nth(1)).toContainText(/9\.84\sft/)
  const sheet = await paper(page, 'Print crew sheet')
  await expect(sheet).toContainText(/Microphone lead, 65\.6\sft: from 2 × 32\.8\sft/)
  await expect(sheet.locator('[data-column=lead]').filter({ hasText: /\sm\b/ })).toHaveCount(0)
  await page.evaluate(() => dispatchEvent(new Event('afterprint')))
  await page.emulateMedia({ media: null })
  const labels = await paper(page, 'Print labels')
  await expect(labels.locator('[data-line="ch-32"]')).toContainText(/65\.6\sft/)
})

test.describe('labels', () => {
  // As fine as a printer of 300 dots an inch.
  test.use({ deviceScaleFactor: 3 })

  test('lead a camera to the whole line with its values', async ({ page }) => {
    const show = inventedShow()
    const long = show.lines.find(({ id }) => id === 'ch-3')
    const fields = ['run_c', 'run_r', 'run_l', 'ein', 'console_r', 'microphone_emf', 'microphone_r', 'headroom']
    if (long !== undefined) long.values = Object.fromEntries(fields.map(id => [id, `1${'0'.repeat(60)}`]))
    await openShow(page, show, 'packing')
    const labels = await paper(page, 'Print labels')
    await expect(labels.locator('li')).toHaveCount(32)
    const label = labels.locator('[data-line="ch-9"]')
    await expect(label).toContainText('Bass DI')
    await expect(label).toContainText('A9')
    await expect(label).toContainText('10 m')
    const link = await scanned(label)
    expect(link).toContain('#1/whole-line/')
    // Too much for a label of this size: it says what the line is.
    expect(await scanned(labels.locator('[data-line="ch-3"]'))).toMatch(/^3 · Snare bottom · A3 · 10.m$/)
    expect(await pages(page)).toBe(2)
    await open(page, link.replace(/^[^#]*/, ''))
    await expect(page.locator('[data-field="coil_l"] input[type=text]')).toHaveValue('5 H')
  })

  // From the disk there is no address that others could open.
  test('of the one file say what the line is, and all else is printed too', async ({ page }) => {
    await openShow(page, inventedShow(), 'packing', 'one file')
    const labels = await paper(page, 'Print labels')
    await expect(labels.locator('li')).toHaveCount(32)
    expect(await scanned(labels.locator('[data-line="ch-9"]'))).toMatch(/^9 · Bass DI · A9 · 10\sm$/)
    expect(await scanned(labels.locator('[data-line="ch-32"]'))).toMatch(
      /^32 · Audience · B16 · 20\sm: from 2 × 10\sm$/,
    )
    expect(await pages(page)).toBe(2)
    await page.evaluate(() => dispatchEvent(new Event('afterprint')))
    const sheet = await paper(page, 'Print crew sheet')
    await expect(sheet.locator('tr', { hasText: 'Bass DI' })).toContainText('Passive DI, ground lift on')
    expect(await pages(page)).toBe(2)
    await page.evaluate(() => dispatchEvent(new Event('afterprint')))
    const list = await paper(page, 'Print packing list')
    await expect(list).toContainText(/20\sm: from 2 × 10\sm/)
    await page.evaluate(() => dispatchEvent(new Event('afterprint')))
    await page.emulateMedia({ media: null })
    await expect(page.locator('#paper')).toHaveCount(0)
    await expect(page.getByRole('button', { name: 'Print labels' })).toBeVisible()
  })
})

function has(line: object, part: string, id: string): boolean {
  return (line as Readonly<Record<string, unknown>>)[part] === id
}

function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')
}

async function undo(page: Page): Promise<void> {
  await page.getByRole('button', { name: /^Undo/ }).click()
}

/** Opens one of the tools above the list, if it is not. */
async function tool(page: Page, name: string): Promise<void> {
  const button = page.getByRole('button', { name, exact: true })
  if ((await button.getAttribute('aria-expanded')) === 'false') await button.click()
}

/** Says what stands between the cells of what goes out. */
async function between(page: Page, separator: string): Promise<void> {
  await tool(page, 'Export table')
  await page.getByRole('group', { name: 'Separator' }).locator('label').filter({ hasText: separator }).click()
}

async function paste(page: Page, text: string): Promise<void> {
  await tool(page, 'Import table')
  await page.getByLabel('Or paste a table').fill(text)
}

async function choose(page: Page, buffer: Buffer): Promise<void> {
  await tool(page, 'Import table')
  await page.getByLabel('CSV or TSV file').setInputFiles({ name: 'list.csv', mimeType: 'text/csv', buffer })
}

/** The cells of the rows as they will be read. */
function preview(page: Page): Locator {
  return page.locator('.preview td')
}

/** The lines of the file of the input list. */
async function written(page: Page): Promise<string[]> {
  await tool(page, 'Export table')
  const saved = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save CSV' }).click()
  const download = await saved
  expect(download.suggestedFilename()).toMatch(/^stageohm-input-list-.*\.csv$/)
  const text = readFileSync(await download.path(), 'utf8')
  expect(text).toMatch(/^\ufeff/)
  return text.trimEnd().split('\r\n')
}

/** The lines of the show as its file has them. */
async function savedLines(page: Page): Promise<readonly InputLine[]> {
  const panel = page.getByRole('button', { name: 'Show', exact: true })
  await panel.click()
  const saved = page.waitForEvent('download')
  await page.locator('#show-panel').getByRole('button', { name: 'Save to a file' }).click()
  await panel.click()
  return (JSON.parse(readFileSync(await (await saved).path(), 'utf8')) as Show).lines
}

/** What is printed by a button, as it looks on paper. */
async function paper(page: Page, name: string): Promise<Locator> {
  // No dialogue of a printer opens; the page is not told that it has printed.
  await page.evaluate(() => (window.print = () => dispatchEvent(new Event('beforeprint'))))
  await page.getByRole('button', { name }).click()
  await page.emulateMedia({ media: 'print' })
  const paper = page.locator('#paper')
  await expect(paper).toBeVisible()
  await expect(page.locator('#page')).toBeHidden()
  return paper
}

/** How many pages a printer makes of it. */
async function pages(page: Page): Promise<number> {
  await page.emulateMedia({ media: null })
  return (await PDFDocument.load(await page.pdf({ format: 'A4' }))).getPageCount()
}

/** No letter is too small to be read. */
async function readable(paper: Locator): Promise<void> {
  const sizes = await paper
    .locator('*')
    .evaluateAll(all => all.map(one => (parseFloat(getComputedStyle(one).fontSize) / 96) * 72))
  expect(Math.min(...sizes)).toBeGreaterThanOrEqual(LEAST - 0.01)
}

/** The code of a label as a camera reads it. */
async function scanned(label: Locator): Promise<string> {
  const { data, width, height } = PNG.sync.read(await label.getByRole('img').screenshot())
  return jsQr(new Uint8ClampedArray(data), width, height)?.data ?? ''
}
