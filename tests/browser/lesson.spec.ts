// A calculator in the page of a lesson that comes from another host, under a
// policy as strict as it can be.

import AxeBuilder from '@axe-core/playwright'
import { readFile } from 'node:fs/promises'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import type { FrameLocator, Page } from '@playwright/test'
import { answer } from './engine'
import { expect, expectAnswer, field, input, open, test as plain, unfold } from './page'
import { address } from './places'

/** Serves a lesson's page from an origin of its own, and gives its address. */
const test = plain.extend<{ lesson: (body: string, scripts?: string) => Promise<string> }>({
  lesson: async ({}, use) => {
    const pages = new Map<string, { body: string; scripts: string }>()
    const server = createServer((request, response) => {
      const page = pages.get(request.url ?? '')
      response.statusCode = page === undefined ? 404 : 200
      response.setHeader('Content-Type', 'text/html; charset=utf-8')
      const { origin } = new URL(address)
      response.setHeader(
        'Content-Security-Policy',
        `default-src 'none'; frame-src ${origin}; script-src ${page?.scripts ?? "'none'"}; img-src data:`,
      )
      response.end(`<!doctype html><html lang="en"><title>Lesson</title><link rel="icon" href="data:,">${page?.body}`)
    })
    await new Promise<void>(done => server.listen(0, 'localhost', done))
    await use((body, scripts = "'none'") => {
      const path = `/${pages.size}`
      pages.set(path, { body, scripts })
      return Promise.resolve(`http://localhost:${(server.address() as AddressInfo).port}${path}`)
    })
    server.closeAllConnections()
    await new Promise<void>(done => server.close(() => done()))
  },
})

test('as its author wrote it: open, locked and hidden values, working, units', async ({ page, lesson }) => {
  await open(page, '#1/pickup/load_r=140k&lead_length=6_m')
  const code = await writeCode(page, {
    uses: { 'Lead length': 'shown', 'Pickup inductance': 'hidden' },
    working: 'open',
    theme: 'dark',
  })
  expect(code).toMatch(/^<iframe src="http:\/\/127\.0\.0\.1/)
  expect(code).not.toContain('allow-same-origin')

  await page.goto(await lesson(code))
  const frame = page.frameLocator('iframe')
  await expectHeadline(frame, { load_r: '140k', lead_length: '6 m' })
  await expect(frame.locator('html')).toHaveAttribute('data-theme', 'dark')
  await expect(frame.locator('.working[open] [data-step]').first()).toBeVisible()
  await expect(frame.locator('[data-field="coil_l"]')).toHaveCount(0)
  const locked = frame.locator('[data-field="lead_length"]')
  await expect(locked).toContainText('6 m')
  await expect(locked.locator('input, select')).toHaveCount(0)
  await expect(frame.getByText('Values fixed for this lesson: 1 shown, 1 not shown')).toBeVisible()
  for (const gone of ['Settings', 'Examples', 'Copy link', 'All'])
    await expect(frame.getByText(gone, { exact: true })).toHaveCount(0)

  // What is open follows what is typed, and comes back to what the author wrote.
  await frame.locator('[data-field="load_r"] input[type=text]').fill('1M')
  await expectHeadline(frame, { load_r: '1M', lead_length: '6 m' })
  await frame.locator('.answer .ask').first().click()
  const options = frame.getByLabel('by changing').locator('option')
  await expect(options.filter({ hasText: 'Load resistance' })).toHaveCount(1)
  const choices = await options.allTextContents()
  expect(choices).not.toContain('Lead length')
  expect(choices).not.toContain('Pickup inductance')
  await frame.getByRole('button', { name: 'Reset to the lesson' }).click()
  await expectHeadline(frame, { load_r: '140k', lead_length: '6 m' })

  // The whole page would tell what is hidden here.
  await expect(frame.getByRole('link', { name: 'Open in full' })).toHaveCount(0)
})

test('the whole page opens with the values of the lesson, where it hides none', async ({ page, lesson }) => {
  await open(page, '#1/pickup/load_r=140k&lead_length=6_m')
  await page.goto(await lesson(await writeCode(page, { uses: { 'Lead length': 'shown' } })))
  const frame = page.frameLocator('iframe')
  await expectHeadline(frame, { load_r: '140k', lead_length: '6 m' })
  const whole = page.waitForEvent('popup')
  await frame.getByRole('link', { name: 'Open in full' }).click()
  const opened = await whole
  await expect(input(opened, 'load_r')).toHaveValue('140k')
  await expect(input(opened, 'lead_length')).toHaveValue('6 m')
  await expect(field(opened, 'lead_length').locator('.locked')).toHaveCount(0)
})

for (const [calculator, values, hidden] of [
  ['pickup', { coil_l: '3.21', load_r: '140k' }, ['coil_l']],
  ['whole-line', { lead_length: '17.3 m', run_length: '61.7 m' }, ['lead_length', 'run_length']],
  ['box-or-straight', { lead_length: '17.3 m', run_length: '61.7 m' }, ['lead_length', 'run_length']],
  ['phantom', { lead_length: '217 m' }, ['lead_length']],
] as const) {
  test(`nothing on the screen tells what is hidden: ${calculator}`, async ({ page }) => {
    const written = Object.entries(values)
      .map(([id, text]) => `${id}=${text.replaceAll(' ', '_')}`)
      .join('&')
    await open(page, `#1/${calculator}/${written}?lesson&show=working&hide=${hidden.join(',')}`)
    await expectAnswer(page, answer(calculator, { ...values }))
    await unfold(page)
    const { fields } = answer(calculator, { ...values })
    const asked: readonly string[] = hidden
    const told = asked.filter(id => fields[id]?.active).map(id => fields[id]?.text.replaceAll('\u00a0', ' ') ?? '')
    expect(told).toHaveLength(hidden.length)
    const all = await page.locator('main').evaluate(main => main.outerHTML.replaceAll(/&nbsp;|\u00a0/g, ' '))
    for (const text of told) expect(all).not.toContain(text)
    // Formulas stay; a number in them that hangs on a hidden one would tell it.
    await expect(page.locator('[data-step]').first()).toBeVisible()
    await expect(page.locator('[data-step] .result')).toHaveCount(0)
    await expect(page.locator('[data-step] math').first()).toBeVisible()
    await expect(page.getByRole('link', { name: 'Open in full' })).toHaveCount(0)
    await expect(page.locator('main a[href*="#1/"]')).toHaveCount(0)
  })
}

test('what is held does not tell it either, and hidden parts are not among those varied', async ({ page }) => {
  await open(page, '#1/pickup/coil_l=3.21/coil_l=6.54?lesson&hide=coil_l&tol=usual&draws=100')
  await expect(page.locator('.drawn')).toHaveAttribute('data-spread', 'true')
  await unfold(page)
  await expect(page.locator('.held')).toContainText('differs in a value that is not shown')
  await expect(page.locator('.varied')).toContainText('Pickup resistance')
  const all = (await page.locator('main').textContent()) ?? ''
  for (const text of ['3.21', '6.54', '2.889', '3.531']) expect(all).not.toContain(`${text}\u00a0H`)
  const waiting = page.waitForEvent('download')
  await page.getByRole('button', { name: 'Save all results as CSV' }).click()
  const saved = await readFile(await (await waiting).path(), 'utf8')
  expect(saved).not.toContain('3.21')
  expect(saved).not.toContain('Pickup inductance')
})

test('where nothing is hidden the working has its numbers', async ({ page }) => {
  await open(page, '#1/pickup?lesson&lock=coil_l&show=working')
  await expect(page.locator('[data-step] .result').first()).toBeVisible()
})

test('nothing changes what is locked', async ({ page }) => {
  const fixed = async (id: string, text: string) =>
    await expect(page.locator(`[data-field="${id}"] .locked bdi`)).toHaveText(text)
  await open(page, '#1/pickup/load_r=10k&coil_l=3/load_r=1M&coil_l=6?lesson&lock=load_r,coil_l')
  const steps = await page.evaluate(() => history.length)
  await page.locator('[data-held]').getByRole('button', { name: /^Use/ }).click()
  await fixed('load_r', '10\u00a0kΩ')
  await fixed('coil_l', '3\u00a0H')
  expect(await page.evaluate(() => history.length)).toBe(steps)

  await open(page, '#1/levels/level=4_dBV?lesson&lock=level')
  await page.locator('[data-field="unit"] select, [data-field="unit"] input').last().waitFor()
  const before = await page.locator('.answer .lead bdi').textContent()
  const unit = page.locator('[data-field="unit"] select')
  if ((await unit.count()) > 0) await unit.selectOption({ index: 0 })
  else await page.locator('[data-field="unit"] input').first().check({ force: true })
  await expect(page.locator('.answer .lead bdi')).toHaveText(before ?? '')

  await open(page, '#1/pickup/load_r=1,500?lesson&lock=load_r')
  await fixed('load_r', '1,500')
  await expect(page.locator('[data-problem]')).toBeVisible()
  await expect(page.locator('[data-problem] button')).toHaveCount(0)
})

test('an address that cannot be read shows itself, and the way to the whole page', async ({ page }) => {
  for (const [hash, text] of [
    ['#9/pickup?lesson', '9/pickup?lesson'],
    ['#1/teleport?lesson', 'teleport'],
  ] as const) {
    await page.goto('about:blank')
    await open(page, hash)
    await expect(page.getByRole('alert')).toContainText(text)
    await expect(page.getByRole('link', { name: 'Open in full' })).toBeVisible()
    await expect(page.getByRole('searchbox')).toHaveCount(0)
  }
  await open(page, '#1/pickup?lock=load_rr&lesson')
  await expect(page.getByRole('alert')).toContainText('load_rr')
})

test('paper does not tell what is hidden', async ({ page }) => {
  await open(page, '#1/pickup/load_r=140k&lead_length=7_m?lesson&hide=load_r')
  await expectAnswer(page, answer('pickup', { load_r: '140k', lead_length: '7 m' }))
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')))
  await expect(page.locator('#paper')).toContainText('7\u00a0m')
  await expect(page.locator('#paper')).not.toContainText('140')
})

test('a link cannot reach past what is locked', async ({ page }) => {
  await open(page, '#1/pickup?want=peak:3_kHz&field=lead_length&lesson&lock=lead_length')
  await expect(page.locator('.found')).toContainText(/value/i)
  for (const use of await page.locator('.found button').all()) await expect(use).toBeDisabled()
})

test('a limit that is hidden is no line of a plot', async ({ page }) => {
  const least = '#1/phantom/draws=current&current=4_mA&least=21.5_V?lesson'
  await open(page, least)
  const lines = page.locator('.plot').getByText('lowest voltage of the device')
  await expect(lines.first()).toBeAttached()
  await open(page, `${least}&hide=least`)
  await expect(page.locator('.plot svg').first()).toBeVisible()
  await expect(lines).toHaveCount(0)
})

test('the script makes frames as tall as what is in them, many on a page', async ({ page, lesson }) => {
  await open(page, '#1/levels/level=4')
  const element = await writeCode(page, { form: 'script and element' })
  expect(element).toMatch(/^<script src=.*defer><\/script>\n<stageohm-calculator screen=/)
  const others = ['calculator="pickup" values="load_r=140k" lock="load_r"', 'screen="#1/pad?lesson"'].map(
    given => `<stageohm-calculator ${given} title="other">not without scripts</stageohm-calculator>`,
  )
  // Pasted twice, the script comes twice.
  await page.goto(await lesson([element.split('\n')[0], element, ...others].join('\n'), new URL(address).origin))
  const frames = page.locator('iframe')
  await expect(frames).toHaveCount(3)
  for (const index of [0, 1, 2]) {
    await frames.nth(index).scrollIntoViewIfNeeded()
    const frame = page.frameLocator('iframe').nth(index)
    await expect(frame.getByRole('heading', { level: 1 })).toBeVisible()
    await expectTall(page, index)
  }
  // Opening the working makes it taller, and closing it lower again.
  const tall = async () => (await frames.nth(1).boundingBox())?.height ?? 0
  const before = await tall()
  const working = page.frameLocator('iframe').nth(1).locator('.working > summary')
  await working.click()
  await expect.poll(tall).toBeGreaterThan(before + 200)
  await expectTall(page, 1)
  await working.click()
  await expect.poll(tall).toBeLessThan(before + 50)
  // Another screen in the same element.
  await page
    .locator('stageohm-calculator')
    .first()
    .evaluate(calculator => calculator.setAttribute('screen', '#1/phantom?lesson'))
  // A browser may leave it until it is near the screen.
  await frames.first().scrollIntoViewIfNeeded()
  await expect(page.frameLocator('iframe').first().getByRole('heading', { level: 1 })).toHaveText('Phantom supply')
  expect(await page.context().cookies()).toEqual([])
})

test('what the example says to watch is in view where it says to move something', async ({ page }) => {
  await page.setViewportSize({ width: 900, height: 1100 })
  await page.goto(`${address}lesson.html`)
  const frame = page.frameLocator('iframe').first()
  await expect(frame.locator('[data-field="lead_length"] input').first()).toBeInViewport({ ratio: 1 })
  const peak = frame.locator('.plot svg text', { hasText: 'resonance' }).first()
  await expect(peak).toBeInViewport({ ratio: 1 })
})

test('a frame that cannot be read says so, with its text', async ({ page, lesson }) => {
  const frame = `<iframe sandbox="allow-scripts" src="${address}stageohm.html#1/pickup/load_r=10k?lesson&amp;warp=9&amp;theme=plaid"></iframe>`
  await page.goto(await lesson(frame))
  const inside = page.frameLocator('iframe')
  await expect(inside.getByRole('alert')).toContainText('warp=9')
  await expect(inside.getByRole('alert')).toContainText('theme=plaid')
  await expectHeadline(inside, { load_r: '10k' })
})

test('the example of a lesson works', async ({ page }) => {
  await page.goto(`${address}lesson.html`)
  await expect(page.locator('iframe')).toHaveCount(3)
  for (const [index, title] of ['Pickup, lead and load', 'Pickup, lead and load', 'DI box or straight in'].entries()) {
    await page.locator('iframe').nth(index).scrollIntoViewIfNeeded()
    const frame = page.frameLocator('iframe').nth(index)
    await expect(frame.getByRole('heading', { level: 1 })).toHaveText(title)
    await expectTall(page, index)
  }
  const { violations } = await new AxeBuilder({ page }).exclude('iframe').analyze()
  expect(violations.map(({ id }) => id)).toEqual([])
})

test('a frame below the fold waits until it is seen', async ({ page }) => {
  await page.clock.install()
  await page.setViewportSize({ width: 900, height: 1100 })
  await page.goto(`${address}lesson.html`)
  await expectTall(page, 0)
  const frames = page.locator('iframe')
  await expect(frames.last().contentFrame().locator('#page')).toBeAttached()
  await page.waitForLoadState('load')
  await page.clock.fastForward(60_000)
  await expect(frames).toHaveCount(3)
  for (const index of [1, 2]) {
    await frames.nth(index).scrollIntoViewIfNeeded()
    await expectTall(page, index)
  }
})

test('where another screen does not come, what stands inside is back, and the next one is tried', async ({
  page,
  lesson,
}) => {
  await page.clock.install()
  const lines = [
    `<script src="${address}stageohm-element.js" defer></script>`,
    '<stageohm-calculator calculator="pad" title="Pad">not here now</stageohm-calculator>',
  ]
  await page.goto(await lesson(lines.join('\n'), new URL(address).origin))
  const element = page.locator('stageohm-calculator')
  await expectTall(page, 0)
  await expect(element).not.toContainText('not here now')
  // A page that came, but is none of ours.
  const other = { contentType: 'text/html', body: '<!doctype html><title>Log in</title>' }
  await page.route('**/stageohm.html', route => route.fulfill(other))
  await element.evaluate(element => element.setAttribute('calculator', 'levels'))
  await page.waitForTimeout(1000)
  await page.clock.fastForward(11_000)
  await expect(element).toContainText('not here now')
  await page.unroute('**/stageohm.html')
  await element.evaluate(element => element.setAttribute('calculator', 'phantom'))
  await expect(page.frameLocator('iframe').getByRole('heading', { level: 1 })).toHaveText('Phantom supply')
  await expectTall(page, 0)
  await expect(element).not.toContainText('not here now')
})

test('a frame as tall as its calculator has no strip for a scroll bar', async ({ playwright, launchOptions }) => {
  const browser = await playwright.chromium.launch({ ...launchOptions, ignoreDefaultArgs: ['--hide-scrollbars'] })
  const page = await browser.newPage({ viewport: { width: 900, height: 1100 } })
  await page.goto(`${address}lesson.html`)
  await expectTall(page, 0)
  const strip = page
    .frameLocator('iframe')
    .first()
    .locator('#page')
    .evaluate(content => innerWidth - content.getBoundingClientRect().width)
  expect(await strip).toBe(0)
  await browser.close()
})

test('on a phone the symbols of its formulas stand beside the fields, fixed ones too', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 740 })
  await open(page, '#1/pickup?lesson&lock=load_r')
  for (const id of ['load_r', 'lead_length']) await expect(field(page, id).locator('.symbol').first()).toBeVisible()
})

test('no fault that axe finds, by keys alone', async ({ page }) => {
  await open(page, '#1/pickup?lesson&lock=load_r')
  await page.keyboard.press('Tab')
  await expect(page.getByRole('link', { name: 'Open in full' })).toBeFocused()
  await open(page, '#1/pickup?lesson&lock=load_r&hide=coil_l&show=working')
  await unfold(page)
  const { violations } = await new AxeBuilder({ page }).exclude('[data-step]:nth-child(n + 4) math').analyze()
  expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([])
})

interface Written {
  readonly uses?: Record<string, string>
  readonly working?: string
  readonly theme?: string
  readonly form?: string
}

/** The code of a frame in which all fields are open that nothing else is said of. */
async function writeCode(page: Page, { uses = {}, working, theme, form = 'frame' }: Written): Promise<string> {
  const author = page.locator('.embed')
  await author.locator('summary').first().click()
  const more = author.locator('.uses details > summary')
  if ((await more.count()) > 0) await more.click()
  const choose = async (group: string, name: string) =>
    await author.getByRole('group', { name: group, exact: true }).getByRole('radio', { name, exact: true }).check()
  await choose('Layout', 'full')
  await choose('All of them', 'open')
  for (const [name, use] of Object.entries(uses)) await choose(name, use)
  if (working !== undefined) await choose('Show the working', working)
  if (theme !== undefined) await choose('Theme', theme)
  await choose('Form', form)
  return (await author.locator('.code').textContent()) ?? ''
}

async function expectHeadline(frame: FrameLocator, values: Record<string, string>) {
  for (const { id, text } of answer('pickup', values).report?.headline ?? []) {
    await expect(frame.locator(`.answer [data-reading="${id}"] bdi`)).toHaveText(text)
  }
}

/** The frame ends where its content does. */
async function expectTall(page: Page, index: number) {
  const frame = page.locator('iframe').nth(index)
  const content = frame.contentFrame().locator('#page')
  await expect
    .poll(async () => {
      const inside = await content.evaluate(element => element.getBoundingClientRect().height)
      return Math.abs(((await frame.boundingBox())?.height ?? 0) - inside)
    })
    .toBeLessThan(2)
}
