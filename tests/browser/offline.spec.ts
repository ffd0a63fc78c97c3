// The served page after one visit: without a network, and with a new version.

import { readFileSync } from 'node:fs'
import { test as plain } from '@playwright/test'
import { answer } from './engine'
import { builtFiles, renewedFiles, type Files } from '../offline/versions.mjs'
import { startHost, type Host } from './host'
import { expect, expectAnswer, field, input } from './page'
import { change, expectStarted, update, versions, visit } from './visit'

const test = plain.extend<{ host: Host; renewed: Files }>({
  host: async ({}, use) => {
    const host = await startHost(builtFiles())
    await use(host)
    await host.stop().catch(() => undefined)
  },
  renewed: async ({}, use, info) => use(renewedFiles(info.outputPath('renewed'))),
})

test.use({ serviceWorkers: 'allow' })

test('opens without a network after one visit, every part of it', async ({ page, host }) => {
  await visit(page, host)
  await host.stop()
  await page.goto(`${host.address}#1/pickup/load_r=140k`)
  await expectAnswer(page, answer('pickup', { load_r: '140k' }))
  // Asked backwards, the worker is needed too.
  await page.goto(`${host.address}#1/pickup?want=peak:3_kHz&field=lead_length`)
  await expect(page.locator('.found')).toContainText(/value/i)
  // So it is for the finder of faults, which comes late.
  await page.goto(`${host.address}#1/fault/hum.one`)
  await expect(page.locator('.fault-step')).toBeVisible()
  await page.goto(`${host.address}#1/pickup`)
  // And the one file, to be saved.
  const waiting = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save page with my values' }).click()
  await waiting
  // By its other name, and the lesson that came with it.
  await page.goto(`${host.address}index.html`)
  await expectStarted(page)
  await page.goto(`${host.address}lesson.html`)
  await expect(page.getByRole('heading', { level: 1 })).toContainText('long lead')
})

test('a lesson whose calculators do not come keeps its links, until the network is back', async ({ page, host }) => {
  await page.clock.install()
  await page.route('**/stageohm.html', route => route.abort())
  await page.goto(`${host.address}lesson.html`)
  const links = page.getByRole('link', { name: 'The calculator, with these values' })
  await expect(links).toHaveCount(3)
  await expect(async () => {
    await page.clock.runFor(5000)
    // Those further down have not been asked for yet.
    expect(await page.locator('iframe').count()).toBeLessThan(3)
  }).toPass()
  await page.unroute('**/stageohm.html')
  await page.evaluate(() => dispatchEvent(new Event('online')))
  await expect(page.frameLocator('iframe').first().locator('.answer')).toBeVisible()
  await expect(links).toHaveCount(2)
})

test('who opens nothing but a lesson has its links, and the calculators behind them, without a network', async ({
  page,
  host,
}) => {
  await page.goto(`${host.address}lesson.html`)
  const links = page.getByRole('link', { name: 'The calculator, with these values' })
  // Each is there until its calculator is.
  await expect(page.frameLocator('iframe').first().locator('.answer')).toBeVisible()
  await expect(links).toHaveCount(2)
  await page.evaluate(() => navigator.serviceWorker.ready)
  await host.stop()
  await page.context().setOffline(true)
  await page.goto(`${host.address}lesson.html`)
  await expect(links).toHaveCount(3)
  await expect(page.locator('iframe')).toHaveCount(0)
  await links.first().click()
  await expectAnswer(page, answer('pickup', { lead_length: '12 m' }))
})

test('a new version waits, and takes over without losing what was typed', async ({ page, host, renewed }) => {
  await visit(page, host)
  await page.goto(`${host.address}#1/pickup`)
  await input(page, 'load_r').fill('12 pigs')
  host.files = renewed
  expect(await update(page)).toBe(true)
  const take = page.getByRole('button', { name: 'Switch to it' })
  await expect(take).toBeVisible()
  await expect(page.locator('html')).not.toHaveAttribute('data-renewed')
  await expect(input(page, 'load_r')).toHaveValue('12 pigs')
  await take.click()
  await expect(page.locator('html[data-renewed]')).toHaveCount(1)
  await expect(input(page, 'load_r')).toHaveValue('12 pigs')
  await expect(field(page, 'load_r').locator('[data-problem]')).toBeVisible()
  await expect(page.getByRole('button', { name: 'Switch to it' })).toHaveCount(0)
  await expect.poll(() => versions(page)).toBe(1)
})

test('the version before comes back when the host goes back to it', async ({ page, host, renewed }) => {
  const before = host.files
  await visit(page, host)
  host.files = renewed
  await change(page)
  await expect(page.locator('html[data-renewed]')).toHaveCount(1)
  host.files = before
  await change(page)
  await expect(page.locator('html:not([data-renewed])[data-started]')).toHaveCount(1)
  await host.stop()
  await page.reload()
  await expectStarted(page)
})

for (const [what, script] of [
  ['fails', 'throw new Error("no")'],
  ['is beyond this browser', 'class Newer { static { this is beyond it } }'],
  ['does nothing at all', ''],
]) {
  test(`a new version whose start page ${what} gives way to the one before`, async ({ page, host }, info) => {
    await visit(page, host)
    host.files = renewedFiles(info.outputPath('broken'), 'broken', { main: script })
    await change(page)
    if (script === '') {
      // It never tells anything; the reader tries again, as readers do.
      await expect(page.locator('html[data-broken]')).toHaveCount(1)
      await page.reload()
      await expect(page.locator('html[data-broken]')).toHaveCount(1)
      await page.reload()
    }
    await expect(page.locator('html:not([data-broken])[data-started]')).toHaveCount(1)
    await expectStarted(page)
    if (script !== '') await expect(page.locator('main .notice')).toContainText('A new version did not start here')
    // Without a network too.
    await host.stop()
    await page.reload()
    await expectStarted(page)
  })
}

test('the next version comes at once where the one in use does not start', async ({ page, host, renewed }, info) => {
  host.files = renewedFiles(info.outputPath('broken'), 'broken', { main: 'throw new Error("no")' })
  await page.goto(host.address)
  await expect(page.locator('#start .stuck')).toBeVisible()
  host.files = renewed
  await page.reload()
  await expectStarted(page)
})

test('what is edited on the host reaches readers who come back, and opens without a network', async ({
  page,
  host,
}) => {
  await visit(page, host)
  const edit = (text: string) => {
    const lesson = host.files.get('lesson.html')?.toString() ?? ''
    host.files = new Map(host.files).set('lesson.html', Buffer.from(lesson.replace(/<h1>[^<]*/, `<h1>${text}`)))
  }
  const heading = page.getByRole('heading', { level: 1 })
  for (const text of ['The first edit', 'The second edit']) {
    edit(text)
    await page.goto(`${host.address}lesson.html`)
    await expect(heading).toHaveText(text)
  }
  // A lesson of their own beside it.
  host.files = new Map(host.files).set(
    'own.html',
    Buffer.from('<!doctype html><title>Own</title><h1>My own lesson</h1>'),
  )
  await page.goto(`${host.address}own.html`)
  await expect(heading).toHaveText('My own lesson')
  await page.waitForLoadState('networkidle')
  await host.stop()
  await page.goto(`${host.address}lesson.html`)
  await expect(heading).toHaveText('The second edit')
  await page.goto(`${host.address}own.html`)
  await expect(heading).toHaveText('My own lesson')
})

test('a network that wants a log-in leaves nothing behind', async ({ page, host, renewed }) => {
  await visit(page, host)
  const heading = page.getByRole('heading', { level: 1 })
  await page.goto(`${host.address}lesson.html`)
  const lesson = await heading.innerText()
  host.portal = '<!doctype html><title>Log in</title><h1>Welcome to the hotel</h1>'
  expect(await update(page)).toBe(false)
  await page.goto(`${host.address}lesson.html`)
  await expect(heading).toHaveText('Welcome to the hotel')
  await page.goto(host.address)
  await expectStarted(page)
  host.portal = null
  await page.waitForLoadState('networkidle')
  const address = host.address
  host.files = renewed
  await change(page)
  await expect(page.locator('html[data-renewed]')).toHaveCount(1)
  await host.stop()
  await page.goto(`${address}lesson.html`)
  await expect(heading).toHaveText(lesson)
})

test('a new version is not mixed with a log-in page that comes in the middle', async ({ page, host, renewed }) => {
  await visit(page, host)
  const script = renewed.get('service-worker.js')
  const page404 = Buffer.from('<!doctype html><title>Log in</title><h1>Welcome to the hotel</h1>')
  host.files = new Map(
    [...renewed.keys()].map(name => [name, name === 'service-worker.js' && script ? script : page404]),
  )
  expect(await update(page)).toBe(false)
  await page.reload()
  await expectStarted(page)
  await expect(page.locator('html')).not.toHaveAttribute('data-renewed')
})

test('readers whom the first release locked out get in once the host is whole', async ({ page, host }) => {
  // It kept whatever a host answered, here half a script.
  const whole = host.files
  const main = [...whole.keys()].find(name => name.startsWith('main-')) ?? ''
  const first = readFileSync(new URL('../fixtures/first-service-worker.js', import.meta.url), 'utf8')
  const names = JSON.stringify(['./', ...[...whole.keys()].filter(name => name !== 'service-worker.js')])
  const script = `const VERSION = "0123456789abcdef", FILES = ${names};\n${first}`
  host.files = new Map(whole).set('service-worker.js', Buffer.from(script)).set(main, Buffer.from('if ('))
  await page.goto(host.address)
  await expect(page.locator('#start .stuck')).toBeVisible()
  await page.evaluate(async () => {
    await navigator.serviceWorker.register('service-worker.js')
    await navigator.serviceWorker.ready
  })
  await page.reload()
  await expect(page.locator('#start .stuck')).toBeVisible()
  host.files = whole
  await expect(async () => {
    // Chromium now and then leaves a reload hanging that meets the change from one worker
    // to the next, and the one after it goes through.
    await page.reload({ timeout: 5000 })
    await expect(page.locator('html[data-started]')).toHaveCount(1, { timeout: 1500 })
  }).toPass({ timeout: 40_000 })
  await host.stop()
  await page.reload()
  await expectStarted(page)
})

test('what installs it finds all that it asks for', async ({ page, host }) => {
  await visit(page, host)
  const session = await page.context().newCDPSession(page)
  const { errors, url } = await session.send('Page.getAppManifest')
  expect(errors).toEqual([])
  expect(url).toBe(`${host.address}manifest.webmanifest`)
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors')
  // The browser of the tests keeps nothing, and says so.
  expect(installabilityErrors.filter(({ errorId }) => errorId !== 'in-incognito')).toEqual([])
})
