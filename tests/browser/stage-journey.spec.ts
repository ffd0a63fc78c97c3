// The invented show planned from end to end, on a phone and on a laptop: served,
// without a network after one visit, and from a page saved on the disk.

import { readFile, writeFile } from 'node:fs/promises'
import { pathToFileURL } from 'node:url'
import { test as plain, type Page } from '@playwright/test'
import { builtFiles } from '../offline/versions.mjs'
import { startHost, type Host } from './host'
import { answer } from './engine'
import { expect, open, setting, test } from './page'
import { inventedShow, openShow, type ShowFile } from './stage-open'
import { visit } from './visit'

/** The international foot, m. */
const FOOT = 0.3048

const SIZES = { phone: { width: 360, height: 740 }, laptop: { width: 1440, height: 900 } }

const offline = plain.extend<{ host: Host }>({
  host: async ({}, use) => {
    const host = await startHost(builtFiles())
    await use(host)
    await host.stop().catch(() => undefined)
  },
})

for (const [size, viewport] of Object.entries(SIZES)) {
  test(`served, on a ${size}`, async ({ page }) => {
    await page.setViewportSize(viewport)
    await open(page, '#1/stage')
    await begin(page)
    const planned = await plan(page)
    await page.reload()
    expect(await saved(page)).toEqual(planned)
  })

  test(`from a saved page, on a ${size}`, async ({ page, browser }, info) => {
    await page.setViewportSize(viewport)
    await open(page, '#1/stage')
    await begin(page)
    await page.goto(await savePage(page, info.outputPath('show.html')))
    await page.context().setOffline(true)
    const planned = await plan(page)
    // The page that it saves has the plan on another device too.
    const url = await savePage(page, info.outputPath('planned.html'))
    const other = await browser.newPage({ viewport, offline: true })
    await other.goto(url)
    expect(await saved(other)).toEqual(planned)
    await other.close()
  })

  offline.describe(`without a network, on a ${size}`, () => {
    offline.use({ serviceWorkers: 'allow', viewport })

    offline('after one visit', async ({ page, host }) => {
      await visit(page, host)
      await host.stop()
      await page.context().setOffline(true)
      await page.goto(`${host.address}#1/stage`)
      await begin(page)
      const planned = await plan(page)
      await page.reload()
      expect(await saved(page)).toEqual(planned)
    })
  })
}

async function begin(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Look at an invented show' }).click()
  await expect(page.locator('.list-count')).toContainText('need attention: 14')
}

/** Plans what is open; answers the file of the show then. */
async function plan(page: Page): Promise<ShowFile> {
  // Which line is worst, and what is to be done about it.
  await page.getByRole('button', { name: /^Worst: 14 Guitar two DI/ }).click()
  const panel = page.locator('.row-panel')
  await expect(panel.locator('h3')).toHaveText('14 Guitar two DI')
  await panel.locator('.cures .chip').first().click()
  await expect(page.locator('.list-told')).toContainText(/^Changed: /)
  await panel.getByRole('button', { name: 'Close' }).click()

  // What hums, and what to isolate.
  await goTo(page, 'map')
  const verdict = page.locator('.map-verdict')
  await expect(verdict).toContainText(/too much hum: \d/)
  const hums = await verdict.innerText()
  await page.locator('.map-do').first().click()
  await expect(verdict).not.toHaveText(hums)

  // The rest of the list from what is in the drawer.
  await goTo(page, '')
  await page.getByRole('button', { name: 'Propose DIs' }).click()
  await page.getByRole('button', { name: /^Take all/ }).click()
  await expect(page.locator('.list-tool .proposed li')).toHaveCount(0)

  // What to pack, and the sheet for the crew.
  await goTo(page, 'packing')
  await expect(page.locator('.packed').first()).toContainText('Passive DI')
  await page.evaluate(() => (window.print = () => dispatchEvent(new Event('beforeprint'))))
  await page.getByRole('button', { name: 'Print crew sheet' }).click()
  await page.emulateMedia({ media: 'print' })
  await expect(page.locator('#paper td[data-column=patch]')).toHaveCount(32)
  await page.emulateMedia({ media: 'screen' })

  await goTo(page, '')
  const left = await page.locator('.list-count p [data-grade=misses]').innerText()
  expect(Number(/\d+$/.exec(left)?.[0])).toBeLessThan(14)
  return saved(page)
}

async function goTo(page: Page, view: string): Promise<void> {
  await page.locator(`nav.views a[href$="#1/stage${view === '' ? '' : `/${view}`}"]`).click()
}

async function saved(page: Page): Promise<ShowFile> {
  return JSON.parse(await download(page, 'Save to a file')) as ShowFile
}

async function savePage(page: Page, path: string): Promise<string> {
  await writeFile(path, await download(page, 'Save page with my show'))
  return pathToFileURL(path).href
}

/** What a button of the show gives to keep. */
async function download(page: Page, name: string): Promise<string> {
  const button = page.getByRole('button', { name: 'Show', exact: true })
  if ((await button.getAttribute('aria-expanded')) === 'false') await button.click()
  const waiting = page.waitForEvent('download')
  await page.locator('#show-panel').getByRole('button', { name, exact: true }).click()
  const text = await readFile(await (await waiting).path(), 'utf8')
  await button.click()
  return text
}

test('the way back into the row works after a reload of its whole line', async ({ page }) => {
  await openShow(page, inventedShow())
  await page.locator('[data-line=ch-10] [data-column=verdict]').click()
  await page.getByRole('link', { name: 'Show as a whole line' }).click()
  await page.locator('[data-field=run_length] input[type=text]').fill('25 m')
  await expect(page).toHaveURL(/run_length=25_m/)
  await page.reload()
  const bar = page.locator('.line-bar')
  await expect(bar).toContainText('Line 10 Bass amplifier of An invented touring show')
  await bar.getByRole('link', { name: 'Save these values to the line' }).click()
  await expect(page.locator('.list-told')).toHaveText('Values put into 10 Bass amplifier: 1')
  await expect(page.locator('.row-panel h3')).toHaveText('10 Bass amplifier')
  await expect(page.locator('.row-panel .own-value').getByLabel('Length of the run')).toHaveValue('25 m')
})

test('on a tablet a row that is opened is seen, and closing it leads back', async ({ page }) => {
  await page.setViewportSize({ width: 820, height: 1180 })
  await openShow(page, inventedShow())
  const verdict = page.locator('[data-line=ch-10] [data-column=verdict]')
  await verdict.click()
  await expect(page.locator('.row-panel h3')).toBeInViewport()
  await expect(page.locator('.row-panel .cures .chip').first()).toBeInViewport()
  await page.locator('.row-panel').getByRole('button', { name: 'Close' }).click()
  await expect(verdict).toBeFocused()
})

test('a line has no verdict before it has a source', async ({ page }) => {
  await openShow(page, inventedShow())
  await page.getByRole('button', { name: 'Add a line' }).click()
  const line = page.locator('.grid-row').filter({ has: page.locator(':focus') })
  const verdict = line.locator('[data-column=verdict]')
  await expect(verdict).toHaveText(/^–.*choose a source$/)
  await expect(page.locator('.list-count')).toContainText('no source yet: 1')
  await expect(page.locator('.list-count')).toContainText('fine: 18')
  await verdict.click()
  const panel = page.locator('.row-panel')
  await expect(panel.locator('.figures li')).toHaveCount(0)
  await panel.getByLabel('Source', { exact: true }).selectOption('Drum microphone, dynamic')
  await expect(panel.locator('.figures li').first()).toBeVisible()
  await expect(page.locator('.list-count')).not.toContainText('no source yet')
})

test('values of a row are those of the reader, and kept as those of the show', async ({ page }) => {
  await openShow(page, inventedShow())
  await setting(page, '1,5 comma')
  await setting(page, 'feet')
  // The first of these misses by a length.
  await expect(page.locator('[data-line=ch-17] [data-column=verdict]')).toContainText('unbalanced lead 42,7\u00a0ft')
  await goTo(page, 'gear')
  // 3 m.
  await expect(page.locator('.gear-list summary', { hasText: 'Instrument lead, 3 m' })).toContainText('9,84\u00a0ft')
  await goTo(page, '')
  await page.locator('[data-line=ch-32] [data-column=verdict]').click()
  const length = page.locator('.row-panel .own-value').getByLabel('Length of the run')
  await length.fill('30,5')
  await expect(length).toHaveValue('30,5')
  const line = (await saved(page)).lines.find(({ id }) => id === 'ch-32')
  expect(answer('whole-line', { ...line?.values }).fields['run_length']?.value).toBeCloseTo(30.5 * FOOT, 9)
})
