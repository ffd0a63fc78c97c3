// The file of the stage: a show is kept on the device with its undoing, whatever
// happens to the page, the storage or the file.

import { readFile, writeFile } from 'node:fs/promises'
import { pathToFileURL } from 'node:url'
import type { Page, TestInfo } from '@playwright/test'
import { expect, open, test } from './page'

const EXAMPLE = 'An invented touring show'

test('a first visit chooses how to begin: empty, with a drawer', async ({ page }) => {
  await open(page, '#1/stage')
  await expect(page.getByRole('heading', { name: 'How do you want to begin?' })).toBeVisible()
  await page.getByRole('button', { name: 'Start empty' }).click()
  await expect(page.locator('.show-name')).toContainText('New show')
  await kept(page, 'New show')
  const { gear, lines } = (await exported(page)).show
  expect(lines).toEqual([])
  expect(gear.map(({ id }) => id)).toContain('passive-di')
  // What it begins with is understood: read again, nothing of it is told.
  await importText(page, 'again.json', JSON.stringify((await exported(page)).show))
  await expect(shows(page)).toHaveCount(2)
  await expect(page.locator('[data-notice]')).toHaveCount(0)
})

test('a reload keeps the show, its undoing and its redoing', async ({ page }) => {
  await begin(page)
  await rename(page, 'Saturday')
  await page.getByLabel('Mains at the venue').selectOption('60')
  await page.getByRole('button', { name: 'Undo: mains' }).click()
  await expect(page.getByRole('status').filter({ hasText: 'Undone: mains' })).toHaveCount(1)
  await kept(page, 'Saturday')
  await page.reload()
  await expect(page.locator('.show-name')).toContainText('Saturday')
  await page.getByRole('button', { name: 'Redo: mains' }).click()
  await panel(page)
  await expect(page.getByLabel('Mains at the venue')).toHaveValue('60')
  // By the keys too, where nothing is typed into.
  await page.getByRole('heading', { level: 1 }).click()
  await page.keyboard.press('Control+z')
  await page.keyboard.press('Control+z')
  await expect(page.locator('.show-name')).toContainText(EXAMPLE)
  await expect(page.locator('.show-mark')).toBeVisible()
  await page.keyboard.press('Control+Shift+z')
  await expect(page.locator('.show-name')).toContainText('Saturday')
  await expect(page.locator('.show-mark')).toHaveCount(0)
})

test('what was changed just before the page went away is there', async ({ page }) => {
  await begin(page)
  await kept(page, EXAMPLE)
  // The database never answers any more.
  await page.evaluate(() => {
    IDBDatabase.prototype.transaction = () => {
      throw new DOMException('gone', 'InvalidStateError')
    }
  })
  await rename(page, 'Late')
  await page.reload()
  await expect(page.locator('.show-name')).toContainText('Late')
  await kept(page, 'Late')
  await panel(page)
  await expect(shows(page)).toHaveCount(1)
  expect(await page.evaluate(() => Object.keys(localStorage).filter(key => key.includes('stage-late')))).toEqual([])
})

for (const [how, damage] of [
  ['damaged', (text: string) => text.replace('Second', 'Sekond')],
  ['half-written', (text: string) => text.slice(0, text.length / 2)],
] as const) {
  test(`a newest slot that is ${how} gives way to the one before, and its text is kept`, async ({ page }) => {
    await begin(page)
    await kept(page, EXAMPLE)
    await rename(page, 'First')
    await kept(page, 'First')
    await rename(page, 'Second')
    await kept(page, 'Second')
    const [newest] = await slots(page)
    expect(newest?.text).toContain('Second')
    await putSlot(page, { ...newest, text: damage(newest?.text ?? '') })
    await page.reload()
    await expect(page.locator('.show-name')).toContainText('First')
    await expect(page.getByRole('alert').filter({ hasText: 'was damaged on this device' })).toBeVisible()
    await page.locator('[data-notice=lost] summary').click()
    const saved = await download(page, () => page.getByRole('button', { name: 'Save this text' }).click())
    expect(saved.text).toBe(damage(newest?.text ?? ''))
    // It goes on from there.
    await rename(page, 'Third')
    await kept(page, 'Third')
    await page.reload()
    await expect(page.locator('.show-name')).toContainText('Third')
    await page.locator('[data-notice=lost] summary').click()
    await page.getByRole('button', { name: 'Remove' }).click()
    await expect(page.locator('[data-notice=lost]')).toHaveCount(0)
  })
}

test('where both slots are damaged, what can be read is opened', async ({ page }) => {
  await begin(page)
  await kept(page, EXAMPLE)
  await rename(page, 'Both')
  await kept(page, 'Both')
  for (const slot of await slots(page)) {
    const text = slot.text.replace('"lines":[{', '"lines":[7,{')
    expect(text).not.toBe(slot.text)
    await putSlot(page, { ...slot, text })
  }
  await page.reload()
  await expect(page.locator('.show-name')).toContainText('Both')
  await expect(page.locator('[data-notice=damaged]')).toContainText('Input list, row 1')
})

test('a full disk is told of, and the page goes on', async ({ page }) => {
  await begin(page)
  await kept(page, EXAMPLE)
  await page.evaluate(() => {
    const put = IDBObjectStore.prototype.put
    const full = () => {
      throw new DOMException('full', 'QuotaExceededError')
    }
    IDBObjectStore.prototype.put = full
    Object.assign(window, { makeRoom: () => (IDBObjectStore.prototype.put = put) })
  })
  await rename(page, 'Full')
  const alert = page.getByRole('alert').filter({ hasText: 'storage of this browser is full' })
  await expect(alert).toBeVisible()
  await rename(page, 'Fuller')
  await expect(page.locator('.show-name')).toContainText('Fuller')
  const saved = await download(page, () => alert.getByRole('button', { name: 'Save to a file' }).click())
  expect(JSON.parse(saved.text)).toMatchObject({ name: 'Fuller' })
  // With room again everything is kept.
  await page.evaluate(() => (window as unknown as { makeRoom: () => void }).makeRoom())
  await rename(page, 'Room')
  await kept(page, 'Room')
  await expect(alert).toHaveCount(0)
})

test('a refused store is told of, and the page goes on', async ({ page }) => {
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException('no', 'SecurityError')
    }
    Storage.prototype.setItem = () => {
      throw new DOMException('no', 'SecurityError')
    }
  })
  await begin(page)
  await expect(page.getByRole('alert').filter({ hasText: 'keeps nothing here' })).toBeVisible()
  await rename(page, 'Nowhere')
  // Another show does not push it away unasked.
  await page.getByRole('button', { name: 'New show' }).click()
  const unsafe = page.locator('[data-notice=unsafe]')
  await expect(unsafe).toContainText('Save it to a file before')
  await expect(page.locator('.show-name')).toContainText('Nowhere')
  await unsafe.getByRole('button', { name: 'Go on without saving' }).click()
  await expect(page.locator('.show-name')).toContainText('New show')
})

test('a file is saved and opened again as it was, and how long ago stands there', async ({ page }) => {
  await begin(page)
  await expect(page.locator('.show-saved')).toContainText('never')
  const first = await exported(page)
  expect(first.name).toBe(`${EXAMPLE}.json`)
  expect(first.text).toBe(`${JSON.stringify(first.show, null, 2)}\n`)
  await expect(page.locator('.show-saved')).toHaveText(/^Last saved to a file: \d.*\d\.$/)
  await rename(page, 'Round')
  await expect(page.locator('.show-saved')).toContainText('Changes since: 1.')
  await importText(page, 'show.json', first.text)
  await expect(page.locator('.show-name')).toContainText(EXAMPLE)
  await expect(page.locator('[data-notice]')).toHaveCount(0)
  expect((await exported(page)).show).toEqual(first.show)
  await expect(shows(page)).toHaveCount(2)
})

test('what is wrong with a file is told by row, and the good part is kept', async ({ page }) => {
  await begin(page)
  const { text } = await exported(page)
  const file = JSON.parse(text) as { lines: unknown[]; name: string; version: number }
  file.name = 'Flawed'
  file.lines[2] = 'no row'
  await importText(page, 'flawed.json', JSON.stringify(file))
  await expect(page.locator('.show-name')).toContainText('Flawed')
  await expect(page.locator('[data-notice=import]')).toContainText('Input list, row 3')
  expect((await exported(page)).show.lines).toHaveLength(31)

  // Half a file: up to its last whole row.
  const at = text.indexOf('"id": "ch-20"')
  await importText(page, 'half.json', text.slice(0, at + 40).replace(EXAMPLE, 'Half'))
  await expect(page.locator('[data-notice=import]')).toContainText('cut short')
  await expect(page.locator('.show-name')).toContainText('Half')
  expect((await exported(page)).show.lines).toHaveLength(19)

  for (const [name, bad, why] of [
    ['newer.json', JSON.stringify({ ...file, version: 7 }), 'version 7'],
    ['other.json', '[1, 2]', 'not the file of a show'],
    ['damaged.json', text.replace('"lines": [', '"lines": ]'), 'not JSON'],
    ['empty.json', '', 'not JSON'],
  ] as const) {
    await importText(page, name, bad)
    const notice = page.locator('[data-notice=import]')
    await expect(notice).toContainText(name)
    await expect(notice).toContainText(why)
    await expect(page.locator('.show-name')).toContainText('Half')
  }
  await page.locator('[data-notice=lost] summary').click()
  await expect(page.locator('[data-notice=lost] li')).toHaveCount(6)
})

test('of many flaws three are told, and the others once one asks', async ({ page }) => {
  await begin(page)
  const lines = Array.from({ length: 50 }, (_, index) => `no row ${index}`)
  await importText(page, 'many.json', JSON.stringify({ version: 1, name: 'Many flaws', lines }))
  const notice = page.locator('[data-notice=import]')
  await expect(notice).toContainText('with changes')
  await expect(notice.locator('li').filter({ visible: true })).toHaveText([/row 1:/, /row 2:/, /row 3:/])
  await notice.getByText('… and 47 more').click()
  await expect(notice.locator('li').filter({ visible: true })).toHaveCount(50)
})

test('what a show only has to be checked for is no loss', async ({ page }) => {
  await begin(page)
  const gear = ['a', 'b'].map(id => ({ id, name: 'Twins', kind: 'lead' }))
  await importText(page, 'twins.json', JSON.stringify({ version: 1, name: 'Twins', gear }))
  await expect(page.locator('[data-notice=import]')).toContainText('Check what it says here')
  await expect(page.locator('[data-notice=import] li')).toContainText(['another row is called “Twins” too'])
  await expect(page.locator('[data-notice=lost]')).toHaveCount(0)
})

test('a file says what is wrong with all of it: its version, its letters', async ({ page }) => {
  await begin(page)
  const notice = page.locator('[data-notice=import]')
  for (const [version, told] of [
    ['"1"', 'its version as "1"'],
    ['0', 'its version as 0'],
    ['null', 'its version as null'],
  ] as const) {
    await importText(page, 'version.json', `{"version": ${version}, "name": "Other"}`)
    await expect(notice).toContainText(told)
    await expect(notice).toContainText('"version": 1')
    await expect(page.locator('.show-name')).toContainText(EXAMPLE)
  }
  const latin = Buffer.from('{\n"version": 1,\n"name": "Caf\u00e9 Nord"}', 'latin1')
  await page
    .locator('#show-panel input[type=file]')
    .setInputFiles({ name: 'latin.json', mimeType: 'application/json', buffer: latin })
  await expect(page.locator('.show-name')).toContainText('Nord')
  await expect(notice).toContainText('the first in line 3 of the file')
  await expect(notice).not.toContainText('Table')
})

test('a page that was saved with a show is opened as its file is', async ({ page }, info) => {
  await begin(page)
  await rename(page, 'In a page <b>')
  await savePage(page, info, 'show.html')
  const { show } = await exported(page)
  await rename(page, 'Since then')
  const input = page.locator('#show-panel input[type=file]')
  await input.setInputFiles(info.outputPath('show.html'))
  await expect(page.locator('.show-name')).toContainText('In a page <b>')
  await expect(page.locator('[data-notice]')).toHaveCount(0)
  expect((await exported(page)).show).toEqual(show)
  await input.setInputFiles({ name: 'other.html', mimeType: 'text/html', buffer: Buffer.from('<p>A page</p>') })
  await expect(page.locator('[data-notice=import]')).toContainText('There is no show in this page')
  await expect(page.locator('.show-name')).toContainText('In a page <b>')
  await expect(page.locator('[data-notice=lost]')).toHaveCount(0)
})

test('a file is dropped on the page', async ({ page }) => {
  await begin(page)
  const { text } = await exported(page)
  const dropped = await page.evaluateHandle(
    text => {
      const data = new DataTransfer()
      data.items.add(new File([text], 'dropped.json', { type: 'application/json' }))
      return data
    },
    text.replace(EXAMPLE, 'Dropped'),
  )
  await page.dispatchEvent('h1', 'drop', { dataTransfer: dropped })
  await expect(page.locator('.show-name')).toContainText('Dropped')
})

test('a newer version of the page wrote the show: it is explained, and left alone', async ({ page }) => {
  await begin(page)
  await kept(page, EXAMPLE)
  const before = await slots(page)
  const [newest] = before
  const text = newest?.text.replace('"version":1', '"version":9') ?? ''
  await putSlot(page, { ...newest, text, check: crc(`${newest?.number} ${text}`) })
  await page.reload()
  await expect(page.locator('[data-notice=damaged]')).toContainText('version 9')
  await expect(page.locator('[data-notice=lost]')).toBeVisible()
  expect((await slots(page))[0]?.text).toBe(text)
})

test('several shows: new, duplicated, opened, deleted, put back', async ({ page }) => {
  await begin(page)
  await panel(page)
  await page.getByRole('button', { name: 'Duplicate this show' }).click()
  await expect(page.locator('.show-name')).toContainText(`${EXAMPLE} (copy)`)
  await page.getByRole('button', { name: 'New show' }).click()
  await expect(shows(page)).toHaveCount(3)
  await page.getByRole('button', { name: `Open ${EXAMPLE} (copy)` }).click()
  await expect(page.locator('[data-open=true]')).toContainText(`${EXAMPLE} (copy)`)
  await page.getByRole('button', { name: `Delete ${EXAMPLE} (copy)` }).click()
  await expect(shows(page)).toHaveCount(2)
  await expect(page.locator('.show-name')).toContainText('New show')
  await page.reload()
  await panel(page)
  await page.getByRole('button', { name: `Put back ${EXAMPLE} (copy)` }).click()
  await page.getByRole('button', { name: `Open ${EXAMPLE} (copy)` }).click()
  await expect(page.locator('.show-name')).toContainText(`${EXAMPLE} (copy)`)
})

test('a limit of the show that is not understood is told, and undone', async ({ page }) => {
  await begin(page)
  await panel(page)
  await page.getByText('Limits for every line').click()
  const limit = page.locator('.show-limits input').first()
  await limit.fill('much')
  await expect(limit).toHaveAttribute('aria-invalid', 'true')
  await expect(page.locator('.show-limits .problem')).toHaveCount(1)
  await page.getByRole('button', { name: /^Undo: limit/ }).click()
  await expect(limit).toHaveValue('')
  await expect(page.locator('.show-limits .problem')).toHaveCount(0)
})

test('two tabs: the newer state is told of, and nothing is written over', async ({ page, context }) => {
  await begin(page)
  await kept(page, EXAMPLE)
  const other = await context.newPage()
  await open(other, '#1/stage')
  await expect(other.locator('.show-name')).toContainText(EXAMPLE)
  await rename(other, 'From the other tab')
  const newer = page.locator('[data-notice=newer]')
  await expect(newer).toContainText('changed in another tab')
  await expect(page.locator('.show-name')).toContainText(EXAMPLE)
  await newer.getByRole('button', { name: 'Show the newer state' }).click()
  await expect(page.locator('.show-name')).toContainText('From the other tab')

  // Changed in both: both stay.
  await rename(page, 'Mine')
  await expect(other.locator('[data-notice=newer]')).toBeVisible()
  await rename(other, 'Theirs')
  await expect(other.locator('[data-notice=apart]')).toContainText('Theirs (other copy)')
  await kept(other, 'Theirs (other copy)')
  await expect(page.locator('.show-name')).toContainText('Mine')
  await other.locator('[data-notice=apart]').getByRole('button', { name: 'Open the other one' }).click()
  await expect(other.locator('.show-name')).toContainText('Mine')
})

test('the page is saved with the show, opens from disk without a network, and tells of newer states', async ({
  page,
}, info) => {
  await begin(page)
  await rename(page, 'From a file')
  const url = await savePage(page, info, 'show.html')
  await page.context().setOffline(true)
  await page.goto(url)
  await expect(page.locator('.show-name')).toContainText('From a file')
  await page.getByRole('button', { name: 'Undo: name of the show' }).click()
  await expect(page.locator('.show-name')).toContainText(EXAMPLE)
  await panel(page)
  // From disk it comes first.
  await expect(page.locator('.show-save button').first()).toHaveText('Save page with my show')
  await rename(page, 'On the device')
  await kept(page, 'On the device')
  await page.reload()
  // The tab goes on where it was, and the file's own state is offered.
  await expect(page.locator('.show-name')).toContainText('On the device')
  await expect(page.locator('[data-notice=file]')).toContainText('older')

  // Opened anew it is what the file says.
  const anew = await page.context().newPage()
  await anew.goto(url)
  await expect(anew.locator('.show-name')).toContainText('From a file')
  await expect(anew.locator('[data-notice=file]')).toContainText('newer state')
  await anew.getByRole('button', { name: 'Open the one on this device' }).click()
  await expect(anew.locator('.show-name')).toContainText('On the device')
  const again = await savePage(anew, info, 'again.html')
  await anew.goto(again)
  await expect(anew.locator('.show-name')).toContainText('On the device')
  await expect(anew.locator('[data-notice=file]')).toHaveCount(0)
})

/** Opens the stage with the invented show. */
async function begin(page: Page): Promise<void> {
  await open(page, '#1/stage')
  await page.getByRole('button', { name: 'Look at an invented show' }).click()
  await expect(page.locator('.show-name')).toContainText(EXAMPLE)
}

async function panel(page: Page): Promise<void> {
  const button = page.getByRole('button', { name: 'Show', exact: true })
  if ((await button.getAttribute('aria-expanded')) === 'false') await button.click()
}

async function rename(page: Page, name: string): Promise<void> {
  await panel(page)
  await page.getByRole('textbox', { name: 'Name of the show' }).fill(name)
}

function shows(page: Page) {
  return page.locator('[data-show]')
}

interface Slot {
  readonly id: string
  readonly place: number
  readonly number: number
  readonly check: string
  readonly text: string
}

/** What the device keeps, the newest first. */
function slots(page: Page): Promise<Slot[]> {
  return page.evaluate(
    () =>
      new Promise<Slot[]>((done, failed) => {
        const opening = indexedDB.open('stageohm-stage')
        opening.onerror = () => failed(opening.error)
        opening.onsuccess = () => {
          const asked = opening.result.transaction('slots').objectStore('slots').getAll()
          asked.onsuccess = () => {
            opening.result.close()
            done((asked.result as Slot[]).sort((a, b) => b.number - a.number))
          }
        }
      }),
  )
}

function putSlot(page: Page, slot: Partial<Slot>): Promise<void> {
  return page.evaluate(
    slot =>
      new Promise<void>(done => {
        const opening = indexedDB.open('stageohm-stage')
        opening.onsuccess = () => {
          const work = opening.result.transaction('slots', 'readwrite')
          work.objectStore('slots').put(slot)
          work.oncomplete = () => {
            opening.result.close()
            done()
          }
        }
      }),
    slot,
  )
}

/** The device keeps a show under this name. */
async function kept(page: Page, name: string): Promise<void> {
  await expect
    .poll(async () => (await slots(page)).map(({ text }) => (JSON.parse(text) as { show: { name: string } }).show.name))
    .toContain(name)
}

/** CRC-32/ISO-HDLC, whose published check is that of the nine digits. */
function crc(text: string): string {
  let rest = -1
  for (const byte of Buffer.from(text)) {
    rest ^= byte
    for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1
  }
  return (~rest >>> 0).toString(16).padStart(8, '0')
}

test('the checksum of a slot is the published CRC-32', async ({ page }) => {
  expect(crc('123456789')).toBe('cbf43926')
  await begin(page)
  await rename(page, 'Ünïcode 🎸')
  await kept(page, 'Ünïcode 🎸')
  for (const { check, number, text } of await slots(page)) expect(check).toBe(crc(`${number} ${text}`))
})

async function download(page: Page, act: () => Promise<void>): Promise<{ name: string; text: string; path: string }> {
  const waiting = page.waitForEvent('download')
  await act()
  const got = await waiting
  const path = await got.path()
  return { name: got.suggestedFilename(), text: await readFile(path, 'utf8'), path }
}

interface Show {
  readonly name: string
  readonly gear: readonly { readonly id: string }[]
  readonly lines: readonly unknown[]
}

async function exported(page: Page): Promise<{ name: string; text: string; show: Show }> {
  await panel(page)
  const { name, text } = await download(page, () =>
    page.locator('#show-panel').getByRole('button', { name: 'Save to a file' }).click(),
  )
  return { name, text, show: JSON.parse(text) as Show }
}

async function importText(page: Page, name: string, text: string): Promise<void> {
  await panel(page)
  await page
    .locator('#show-panel input[type=file]')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) })
}

async function savePage(page: Page, info: TestInfo, name: string): Promise<string> {
  await panel(page)
  const { text } = await download(page, () => page.getByRole('button', { name: 'Save page with my show' }).click())
  const path = info.outputPath(name)
  await writeFile(path, text)
  return pathToFileURL(path).href
}
