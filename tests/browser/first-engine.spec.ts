// On a first visit a small engine answers a link before the whole one has come; what
// needs the whole one waits for it, says so where it does not come, and goes on when
// it does.

import { expect, test as plain, type Page } from '@playwright/test'
import { builtFiles } from '../offline/versions.mjs'
import { answer, headline } from './engine'
import { startHost, type Host } from './host'

const test = plain.extend<{ host: Host }>({
  host: async ({}, use) => {
    const host = await startHost(builtFiles())
    await use(host)
    await host.stop()
  },
})

test.use({ serviceWorkers: 'allow' })

const WHOLE = /\/stageohm-web-.*\.wasm$/
const LEAD = '.answer .lead .value'

/** Holds back what the whole engine is in; the function lets it come. */
async function holdWhole(page: Page): Promise<() => void> {
  let come = () => {}
  const held = new Promise<void>(done => (come = done))
  await page.route(WHOLE, async route => {
    await held
    await route.continue()
  })
  return come
}

function first(calculator: string, values: Record<string, string> = {}): string {
  return headline(answer(calculator, values))[0]?.text ?? ''
}

test('a link is answered, and what is typed, while the whole engine is on its way', async ({ page, host }) => {
  const come = await holdWhole(page)
  await page.goto(`${host.address}#1/pickup/load_r=140k`)
  await expect(page.locator(LEAD)).toContainText(first('pickup', { load_r: '140k' }))
  await page.locator('[data-field=lead_length] input[type=text]').fill('12 m')
  const text = first('pickup', { load_r: '140k', lead_length: '12 m' })
  await expect(page.locator(LEAD)).toContainText(text)
  await expect.poll(() => page.evaluate(() => location.hash)).toContain('lead_length=12_m')
  come()
  // The answer stays, and what only the whole engine can do goes on.
  await page.goto(`${host.address}#1/look-up/term-balanced`)
  await expect(page.locator('main h1')).toHaveText('Balanced line')
  await page.goBack()
  await expect(page.locator(LEAD)).toContainText(text)
})

test('a long question waits for the whole engine, and is answered then', async ({ page, host }) => {
  const come = await holdWhole(page)
  await page.goto(`${host.address}#1/pickup/load_r=140k?tol=usual`)
  await expect(page.locator(LEAD)).toContainText(first('pickup', { load_r: '140k' }))
  const told = page.locator('.tolerances .drawn')
  await expect(told).toContainText('Drawing')
  come()
  await expect(told).toContainText('2000')
})

test('the start page needs no engine; a calculator that is opened early opens when it has come', async ({
  page,
  host,
}) => {
  const come = await holdWhole(page)
  await page.goto(host.address)
  const link = page.locator('.calculators a[data-calculator=levels]')
  await link.click()
  await expect(page.locator('main')).toContainText('Loading the rest')
  come()
  await expect(page.locator(LEAD)).toContainText(first('levels'))
})

test('the whole engine does not come: the small one goes on, the rest says so and can be tried again', async ({
  page,
  host,
}) => {
  await page.route(WHOLE, route => route.abort())
  await page.goto(`${host.address}#1/pickup`)
  await expect(page.locator(LEAD)).toContainText(first('pickup'))
  await page.evaluate(() => (location.hash = '#1/levels'))
  await expect(page.locator('main')).toContainText('Part of this page did not load')
  await page.unroute(WHOLE)
  await page.getByRole('button', { name: 'Try again' }).click()
  await expect(page.locator(LEAD)).toContainText(first('levels'))
})

test('a long question whose engine does not come says so, and is answered once it does', async ({ page, host }) => {
  await page.route(WHOLE, route => route.abort())
  await page.goto(`${host.address}#1/pickup?want=peak:3_kHz&field=lead_length`)
  const found = page.locator('.found')
  await expect(found).toContainText('did not load')
  await page.unroute(WHOLE)
  await found.getByRole('button', { name: 'Try again' }).click()
  await expect(found).toContainText('gives 3 kHz')
})

test('glue that did not come is asked for again with the rest', async ({ page, host }) => {
  const GLUE = /\/stageohm-web-\w+\.js$/
  await page.route(GLUE, route => route.fulfill({ contentType: 'text/html', body: '<p>Log in</p>' }))
  await page.goto(host.address)
  await page.locator('.calculators a[data-calculator=levels]').click()
  await expect(page.locator('main')).toContainText('did not load')
  await page.unroute(GLUE)
  await page.getByRole('button', { name: 'Try again' }).click()
  await expect(page.locator(LEAD)).toContainText(first('levels'))
})

for (const part of ['wasm', 'ftl'] as const) {
  test(`a small engine whose ${part} is cut short: the whole one answers`, async ({ page, host }) => {
    const files = new Map(host.files)
    for (const [name, content] of files) {
      if (name.startsWith('first-pickup-') && name.endsWith(part))
        files.set(name, content.subarray(0, content.length >> 1))
    }
    host.files = files
    await page.goto(`${host.address}#1/pickup/load_r=140k`)
    await expect(page.locator(LEAD)).toContainText(first('pickup', { load_r: '140k' }))
    await expect(page.locator('#start')).toBeHidden()
  })
}

test('a page that is kept has the whole engine at hand and asks for no small one', async ({ page, host }) => {
  await page.goto(host.address)
  await expect.poll(() => page.evaluate(() => navigator.serviceWorker.controller !== null)).toBe(true)
  const asked: string[] = []
  page.on('request', request => asked.push(request.url()))
  await page.goto(`${host.address}#1/levels`)
  await page.reload()
  await expect(page.locator(LEAD)).toContainText(first('levels'))
  expect(asked.filter(url => url.includes('/first-'))).toEqual([])
  const kept = await page.evaluate(async () => {
    const found = await Promise.all((await caches.keys()).map(async name => (await caches.open(name)).keys()))
    return found.flat().map(({ url }) => url)
  })
  expect(kept.filter(url => /stageohm-web-.*\.wasm$/.test(url)).length).toBe(1)
  expect(kept.filter(url => url.includes('/first-'))).toEqual([])
})
