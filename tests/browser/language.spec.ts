// The page in Spanish: chosen, by a link or by the browser; apart from numbers; as one file.

import { readFileSync } from 'node:fs'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { test as plain, type Page } from '@playwright/test'
import { answer } from './engine'
import { expect, expectAnswer, field, input, open, reading, test } from './page'
import { address, file } from './places'

const catalogue = readFileSync(fileURLToPath(new URL('../../crate/src/words/es.ftl', import.meta.url)), 'utf8')
const SPANISH_FILE = file.replace('stageohm.html', 'stageohm-es.html')

/** A message of the Spanish catalogue. */
function spanish(key: string): string {
  const [, text] = new RegExp(`^${key} = (.+)$`, 'm').exec(catalogue) ?? []
  if (text === undefined) throw new Error(`es.ftl has no ${key}`)
  return text
}

/** Opens a screen in whatever language it opens. */
async function visit(page: Page, url: string): Promise<void> {
  await page.goto(url)
  await expect(page.locator('#start')).toBeHidden()
}

async function expectLanguage(page: Page, language: 'en' | 'es'): Promise<void> {
  await expect(page.locator('html')).toHaveAttribute('lang', language)
  const settings = language === 'en' ? 'Settings' : spanish('page-settings')
  await expect(page.locator('.top').getByRole('button', { name: settings, exact: true })).toBeVisible()
}

async function choose(page: Page, name: string): Promise<void> {
  const settings = page.locator('.top button[aria-controls]').last()
  if ((await settings.getAttribute('aria-expanded')) === 'false') await settings.click()
  await page.locator('.settings').getByRole('radio', { name, exact: true }).click()
}

test('by its own name in the settings, and kept', async ({ page }) => {
  await open(page, '#1/pickup/load_r=47k')
  await choose(page, 'Español')
  await expectLanguage(page, 'es')
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(spanish('pickup'))
  // The values are the same, and so is the link, which names no language.
  await expect(input(page, 'load_r')).toHaveValue('47k')
  expect(page.url()).not.toContain('language')
  await page.goto(`${address}#1/levels`)
  await page.reload()
  await expectLanguage(page, 'es')
  await choose(page, 'English')
  await expectLanguage(page, 'en')
})

test('a link says it, for its tab alone; an unknown one says nothing', async ({ page, context }) => {
  await visit(page, `${address}#1/pad?language=es`)
  await expectLanguage(page, 'es')
  await expect(page.locator('.notice:visible')).toHaveCount(0)
  const second = await context.newPage()
  await visit(second, `${address}#1/pad?language=zz`)
  await expectLanguage(second, 'en')
  await expect(second.locator('.notice:visible')).toHaveCount(0)
  await visit(second, `${address}?language=es#1/pad`)
  await expectLanguage(second, 'es')
  // What is chosen then stays chosen.
  await choose(second, 'English')
  await expectLanguage(second, 'en')
  await second.reload()
  await expectLanguage(second, 'en')
})

test('numbers keep their own settings, and a link means the same to its reader', async ({ page, browser }) => {
  await open(page, '#1/pickup/load_r=1M&lead_length=2.500')
  await choose(page, '1.5 point')
  await choose(page, 'Español')
  await expectLanguage(page, 'es')
  const link = page.url()

  const context = await browser.newContext({ locale: 'es-MX', serviceWorkers: 'block' })
  const reader = await context.newPage()
  await visit(reader, link)
  await expectLanguage(reader, 'es')
  // Who has chosen nothing begins with the comma of the language.
  await expect(input(reader, 'lead_length')).toHaveValue(/^2,5/)
  const peak = answer('pickup', { load_r: '1M', lead_length: '2.5' }).report?.headline.find(({ id }) => id === 'peak')
  await expect(reading(reader, 'peak')).toHaveText((peak?.text ?? '').replace('.', ','))
  await reader.locator('.top button[aria-controls]').last().click()
  await reader
    .locator('.settings')
    .getByRole('radio', { name: spanish('page-decimal-point') })
    .click()
  await expect(reading(reader, 'peak')).toHaveText(peak?.text ?? '')
  await expectLanguage(reader, 'es')
  await context.close()
})

test('the browser says it, and English is never seen', async ({ browser }) => {
  const context = await browser.newContext({ locale: 'es-ES', serviceWorkers: 'block' })
  const page = await context.newPage()
  const asked: string[] = []
  page.on('request', request => asked.push(request.url()))
  let give = () => {}
  const given = new Promise<void>(done => (give = done))
  await page.route('**/main-*.js', async route => {
    await given
    await route.continue()
  })
  await page.goto(address, { waitUntil: 'commit' })
  await expect(page.locator('html')).toHaveAttribute('lang', 'es')
  await expect(page.locator('#page > main')).toBeAttached()
  await expect(page.locator('#page > main')).toBeHidden()
  give()
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(spanish('page-title'))
  // Its words alone are fetched.
  const words = asked.filter(url => /words/.test(url))
  expect(words.length).toBeGreaterThan(0)
  expect(words.filter(url => !url.includes('/words-es-'))).toEqual([])
  await context.close()
})

test('English fetches no other words', async ({ page }) => {
  const asked: string[] = []
  page.on('request', request => asked.push(request.url()))
  await open(page, '#1/pickup')
  await expectAnswer(page, answer('pickup'))
  expect(asked.filter(url => url.includes('words-es'))).toEqual([])
})

// Chromium tells of the missing files.
for (const [what, names] of [
  ['the words of the page', '**/words-es-*/page-words.json'],
  ['the words of the engine', '**/words-es-*/*.ftl'],
] as const) {
  plain(`where ${what} do not come they are in English, with a notice`, async ({ page }) => {
    await page.route(names, route => route.fulfill({ status: 404, body: 'gone' }))
    await visit(page, `${address}#1/pickup?language=es`)
    await expect(page.locator('[data-missed]')).toContainText('Español')
    await expect(reading(page, 'peak')).not.toHaveText('')
    await expect(page.locator('main')).not.toContainText('pickup-')
  })
}

test('a file that is translated half says so, and shows no key', async ({ page }) => {
  await page.route('**/words-es-*/page-words.json', async route => {
    const words = await (await route.fetch()).json()
    words.languages = words.languages.map((one: unknown[]) =>
      one[0] === 'es' ? [...one.slice(0, 3), 12, one[4]] : one,
    )
    await route.fulfill({ json: words })
  })
  await visit(page, `${address}#1/pickup?language=es`)
  await page.locator('.top button[aria-controls]').last().click()
  await expect(page.locator('[data-missing="es"]')).toContainText('12')
})

test('a search needs no accents, and finds what English calls it', async ({ page }) => {
  await visit(page, `${address}?language=es`)
  const found = async (text: string) => {
    await page.getByRole('searchbox').fill(text)
    await expect(page.locator('.hits li').first()).toBeVisible()
    return page.locator('.hits li a').evaluateAll(all => all.map(one => one.getAttribute('href')))
  }
  const accented = await found('micrófono')
  expect(await found('microfono')).toEqual(accented)
  expect((await found('ground loop'))[0]).toContain('#1/ground-loop')
  expect((await found(spanish('pickup')))[0]).toContain('#1/pickup')
})

test('what stays English says so', async ({ page }) => {
  await visit(page, `${address}?language=es`)
  await expect(page.locator('#start')).toHaveAttribute('lang', 'en')
})

test('one file in Spanish', async ({ page }) => {
  await page.context().setOffline(true)
  await visit(page, `${pathToFileURL(SPANISH_FILE).href}#1/pickup/load_r=47k`)
  await expectLanguage(page, 'es')
  await expect(field(page, 'load_r')).toContainText(spanish('common-load_r').slice(0, 8))
  await page.locator('.top button[aria-controls]').last().click()
  await expect(page.locator('.settings').getByRole('radio', { name: 'English' })).toHaveCount(0)
})

test('of several in a link the first that is here is taken, and none stays in the address', async ({ page }) => {
  await visit(page, `${address}#1/pad?language=xx&language=es_ES&in=foot&language=en`)
  await expectLanguage(page, 'es')
  await expect(page).toHaveURL(/#1\/pad\?in=foot$/)
  await page.reload()
  await expectLanguage(page, 'es')
  // One that is followed in the open page, as it may be written.
  await page.evaluate(() => (location.hash = '#1/levels?language=ES-mx'))
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(spanish('levels'))
  await expect(page).toHaveURL(/#1\/levels$/)
  await page.evaluate(() => (location.hash = '#1/pad?language=EN'))
  await expectLanguage(page, 'en')
  await expect(page).toHaveURL(/#1\/pad$/)
})

test('the language of one frame is not that of another', async ({ page }) => {
  await page.route('**/frames.html', route =>
    route.fulfill({
      contentType: 'text/html',
      body: `<!doctype html><title>t</title><iframe src="./#1/pad?lesson"></iframe>
        <iframe src="./#1/pad?lesson&language=es"></iframe>`,
    }),
  )
  const lang = (frame: number) => page.frameLocator('iframe').nth(frame).locator('html')
  for (const load of [() => page.goto(`${address}frames.html`), () => page.reload()]) {
    await load()
    await expect(lang(1)).toHaveAttribute('lang', 'es')
    await expect(lang(0)).toHaveAttribute('lang', 'en')
  }
})

test('a saved page takes a second language along, and offers both', async ({ page, browser }, info) => {
  await open(page, '#1/pickup/load_r=47k')
  const second = page.getByRole('button', { name: 'Take Español along in the file' })
  expect((await second.boundingBox())?.height).toBeGreaterThanOrEqual(44)
  await second.click()
  await expect(second).toHaveAttribute('aria-pressed', 'true')
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save page with my values' }).click(),
  ])
  const saved = info.outputPath('saved.html')
  await download.saveAs(saved)
  await page.context().setOffline(true)
  await visit(page, pathToFileURL(saved).href)
  await expectLanguage(page, 'en')
  await expect(input(page, 'load_r')).toHaveValue('47k')
  await choose(page, 'Español')
  await expectLanguage(page, 'es')
  await expect(input(page, 'load_r')).toHaveValue('47k')
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(spanish('pickup'))
  // Who has chosen nothing reads it in the language of the browser.
  const context = await browser.newContext({ locale: 'es-MX' })
  const reader = await context.newPage()
  await visit(reader, pathToFileURL(saved).href)
  await expectLanguage(reader, 'es')
  await context.close()
})

test('the code for a lesson is in the language of its author', async ({ page }) => {
  await visit(page, `${address}#1/pickup?language=es`)
  const panel = page.locator('.embed')
  await panel.locator('summary').first().click()
  await expect(panel.locator('.code')).toContainText('/stageohm-es.html#1/pickup')
  await panel.getByRole('radio', { name: spanish('page-embed-form-element') }).check()
  await expect(panel.locator('.code')).toContainText(' language="es" title="')
})

test('the element opens a frame in a language', async ({ page }) => {
  await page.route('**/frame-test.html', route =>
    route.fulfill({
      contentType: 'text/html',
      body: `<!doctype html><title>t</title><script src="stageohm-element.js" defer></script>
        <stageohm-calculator calculator="pad" language="es" title="Pad"></stageohm-calculator>`,
    }),
  )
  await page.goto(`${address}frame-test.html`)
  await expect(page.frameLocator('iframe').locator('html')).toHaveAttribute('lang', 'es')
  await expect(page.frameLocator('iframe').getByRole('heading', { level: 1 })).toHaveText(spanish('pad'))
})

test('a lesson is told in the language of its reader where it has it', async ({ page }) => {
  const lesson = {
    ...{ stageohm: 'lesson', version: 1, id: 'half', revision: 1, engine: '0.1.0', language: 'en', title: 'Half' },
    ...{ by: '', licence: '', minutes: 5, pass: 0.5, draw: {}, note: '' },
    rig: { calculator: 'source-load', values: { source_r: '600', load_r: '600' } },
    steps: [
      {
        ...{
          kind: 'number',
          title: 'Loss',
          text: 'How much?',
          points: 1,
          reading: 'loss',
          good: '0.5 dB',
          none: '3 dB',
        },
        variants: { es: { title: 'Pérdida', text: '¿Cuánto?' } },
      },
    ],
    variants: { es: { title: 'La mitad' } },
  }
  for (const [language, title, lang] of [
    ['en', 'Half', 'en'],
    ['es', 'La mitad', 'es'],
  ] as const) {
    await visit(page, `${address}#1/lesson?language=${language}`)
    await page.locator('input[type=file]').setInputFiles({
      ...{ name: 'half.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(lesson)) },
    })
    await expect(page.getByRole('heading', { level: 1 })).toHaveText(title)
    await expect(page.locator('article.lesson')).toHaveAttribute('lang', lang)
  }
})

test('the invented show has Spanish names and numbers, and says that it is invented', async ({ page }) => {
  await visit(page, `${address}#1/stage?language=es`)
  await page.getByRole('button', { name: spanish('page-stage-first-example') }).click()
  await expect(page.locator('.show-name bdi')).toHaveText(spanish('page-stage-invented-name'))
  await expect(page.locator('.show-mark')).toHaveText(spanish('page-stage-invented'))
  await expect(page.locator('.stage')).toContainText(spanish('page-stage-invented-lines-ch-27'))
  await page.locator('nav.views a[href$="#1/stage/power"]').click()
  const box = page.locator('[data-list=equipment] [data-row=stage-box]')
  await expect(box).toContainText(`${spanish('page-stage-phantom-most')} 0,2 A`)
  for (const name of ['Stage box', 'Passive DI', 'console', 'invented'])
    await expect(page.locator('.stage')).not.toContainText(name)
  // A name stays as it was put in, in whatever language.
  await choose(page, 'English')
  await expect(page.locator('.show-name bdi')).toHaveText(spanish('page-stage-invented-name'))
})

test('what is read out has no sentence that begins small', async ({ page }) => {
  for (const language of ['es', 'en']) {
    await visit(page, `${address}#1/lead-length?language=${language}`)
    const said = page.locator('p.unseen[role=status]')
    await input(page, 'lead_length').fill('20')
    await expect(said).toContainText(';')
    expect(await said.textContent()).not.toMatch(/\. \p{Ll}/u)
  }
})

test('the ways to say how sure one is break no word', async ({ page }) => {
  for (const width of [360, 820]) {
    await page.setViewportSize({ width, height: 740 })
    await visit(page, `${address}#1/lesson/levels?seed=1&step=2&language=es`)
    const ways = page.locator('.lesson-commit .segments span')
    await expect(ways).toHaveCount(3)
    // A line for each word is the most.
    const lines = await ways.evaluateAll(all =>
      all.map(one => {
        const range = document.createRange()
        range.selectNodeContents(one)
        return { words: one.textContent.split(' ').length, lines: range.getClientRects().length }
      }),
    )
    for (const { words, lines: all } of lines) expect(all).toBeLessThanOrEqual(words)
    const [list] = await page
      .locator('.lesson-commit .choices')
      .evaluateAll(all => all.map(one => one.scrollWidth - one.clientWidth))
    expect(list).toBeLessThanOrEqual(0)
  }
})

test('the Spanish file says in Spanish what stands in it before it starts', async ({ browser }) => {
  const context = await browser.newContext({ javaScriptEnabled: false })
  const page = await context.newPage()
  await page.goto(pathToFileURL(SPANISH_FILE).href)
  await expect.poll(() => page.locator('body').innerText()).toContain(spanish('page-start-no-script'))
  const start = page.locator('#start')
  await expect(start).toHaveAttribute('lang', 'es')
  await expect(start).toContainText(spanish('page-start-slow-head'))
  await expect(start).not.toContainText('calculators')
  await context.close()
})
