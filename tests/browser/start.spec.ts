// Where the page does not start it says so, what to do, and keeps the link.

import { expect, test as plain, type Page } from '@playwright/test'
import { builtFiles, renewedFiles } from '../offline/versions.mjs'
import { startHost, type Host } from './host'
import { forms } from './places'

const test = plain.extend<{ host: Host }>({
  host: async ({}, use) => {
    const host = await startHost(builtFiles())
    await use(host)
    await host.stop()
  },
})

const HASH = '#1/pickup/load_r=140k'
const SCRIPTS = {
  'main script': /main-/,
  glue: /^stageohm-web-\w+\.js/,
  engine: /^(first-pickup|stageohm-web)-.*\.wasm$/,
}

for (const part of ['main script', 'glue', 'engine'] as const) {
  test(`the ${part} is missing`, async ({ page, host }) => {
    const thrown: Error[] = []
    page.on('pageerror', error => thrown.push(error))
    const name = remove(host, SCRIPTS[part])
    await page.goto(host.address + HASH)
    await expectTold(page, 'missing or incomplete')
    await expect(page.locator('#start [data-why=file] code')).toHaveText(name)
    await expect(page.locator('#start pre')).toHaveText(host.address + HASH)
    // What the page says of itself it does not leave to the browser to say as well.
    expect(thrown).toEqual([])
  })

  test(`the ${part} is cut short`, async ({ page, host }) => {
    const name = remove(host, SCRIPTS[part], half => half)
    await page.goto(host.address + HASH)
    await expectTold(page, 'missing or incomplete')
    await expect(page.locator('#start [data-why=file] code')).toHaveText(name)
  })
}

for (const [what, left] of [
  ['missing', () => undefined],
  ['cut short', (half: Buffer) => half],
] as const) {
  test(`the styles are ${what}: it runs, and still says so`, async ({ page, host }) => {
    const name = remove(host, /all-.*\.css$/, left)
    await page.goto(host.address + HASH)
    await expect(page.locator('.answer')).toBeAttached()
    const place = page.locator('#start')
    await expect(place.getByText('Stageohm runs, but without its looks')).toBeVisible()
    await expect(place.locator('[data-why=styles] code')).toHaveText(name)
    for (const wrong of ['Loading the', 'Still loading', 'could not start']) {
      await expect(place.getByText(wrong)).toBeHidden()
    }
  })
}

test('styles that hang do not keep the reason from being seen', async ({ page, host }) => {
  await page.route(/all-.*\.css$/, () => undefined)
  await page.goto(host.address + HASH, { waitUntil: 'commit' })
  const seen = page.getByText('The network looks slow')
  await expect(seen).toBeVisible({ timeout: 20_000 })
  // Painted, and not only there.
  const entries = () => page.evaluate(() => performance.getEntriesByName('first-contentful-paint').length)
  await expect.poll(entries).toBe(1)
})

test('a page whose end is missing says so', async ({ page, host }) => {
  edit(host, text => text.slice(0, -120))
  await page.goto(host.address + HASH)
  await expectTold(page, 'missing or incomplete')
})

test('a new version with other names: everything again is what the page names now', async ({ page, host }, info) => {
  const main = remove(host, SCRIPTS['main script'])
  await page.goto(host.address + HASH)
  const again = page.getByRole('button', { name: 'Download everything again' })
  await again.click()
  await expect(page.locator('#start')).toContainText(`The site answers, but ${main} is not there`)
  host.files = renewedFiles(info.outputPath('renewed'))
  await again.click()
  await expect(page.locator('.answer')).toBeVisible()
})

test('a lesson that does not start keeps what its author hides', async ({ page, host }) => {
  remove(host, SCRIPTS['main script'])
  await page.goto(`${host.address}#1/pickup/load_r=140k&coil_l=3.7?lesson&hide=coil_l`)
  await expectTold(page, 'missing or incomplete')
  await expect(page.locator('#start')).not.toContainText('3.7')
})

test('a sandboxed frame of the page that is no one file', async ({ page, host }) => {
  const lesson = Buffer.from('<iframe sandbox="allow-scripts" src="./"></iframe>')
  host.files = new Map([...host.files, ['frame.html', lesson]])
  await page.goto(`${host.address}frame.html`)
  await expect(page.frameLocator('iframe').locator('#start')).toContainText('only stageohm.html can start')
})

test('a host whose policy forbids the script in the page', async ({ page, host }) => {
  await page.route(host.address, async route => {
    const response = await route.fetch()
    const headers = { ...response.headers(), 'content-security-policy': "script-src 'self' 'wasm-unsafe-eval'" }
    await route.fulfill({ response, headers })
  })
  await page.goto(`${host.address}#1/pickup/load_r=140k?lesson&theme=dark`)
  await expect(page.locator('.answer')).toBeVisible()
  await expect(page.locator('#start')).toBeHidden()
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')
  await page.waitForLoadState('load')
  await expect(page.locator('#start')).toBeHidden()
})

test('the browser is too old for the script', async ({ page, host }) => {
  replace(host, SCRIPTS['main script'], 'class Newer { static { this is beyond it } }')
  await page.addInitScript(() => Reflect.deleteProperty(Object, 'hasOwn'))
  await page.goto(host.address + HASH)
  await expectTold(page, 'This browser is too old')
})

test('the browser does not run WebAssembly', async ({ page, host }) => {
  await page.addInitScript(() => Reflect.deleteProperty(globalThis, 'WebAssembly'))
  await page.goto(host.address + HASH)
  await expectTold(page, 'has no WebAssembly')
})

test('a script fails on its own account', async ({ page, host }) => {
  replace(host, SCRIPTS['main script'], 'throw new Error("no")')
  await page.goto(host.address + HASH)
  await expectTold(page, 'Something went wrong')
})

test('the engine starts and fails', async ({ page, host }) => {
  await page.addInitScript(() => {
    WebAssembly.Instance = class {
      constructor() {
        throw new Error('out of memory')
      }
    } as unknown as typeof WebAssembly.Instance
  })
  await page.goto(host.address + HASH)
  await expectTold(page, 'Something went wrong')
})

for (const scripts of [true, false]) {
  test(`an engine that hangs: progress, then what to do, then it starts${scripts ? '' : '; by the styles alone'}`, async ({
    page,
    host,
  }) => {
    if (!scripts) edit(host, text => text.replace(/<script id="?(early|boot)"?>.*?<\/script>/gs, ''))
    let go = () => {}
    const wait = new Promise<void>(done => (go = done))
    await page.route(/\.wasm$/, async route => {
      await wait
      await route.continue()
    })
    await page.goto(host.address + HASH)
    const place = page.locator('#start')
    const seen = (what: string) => place.locator(what).evaluate(element => getComputedStyle(element).visibility)
    await expect.poll(() => seen('.loading'), { timeout: 5000 }).toBe('visible')
    expect(await seen('.stuck')).toBe('hidden')
    await expect.poll(() => seen('.stuck'), { timeout: 15_000 }).toBe('visible')
    await expect(place).toContainText('The network looks slow. Leave this page open')
    if (scripts) await expect(place.locator('pre')).toHaveText(host.address + HASH)
    go()
    await expect(page.locator('.answer')).toBeVisible()
    await expect(place).toBeHidden()
  })
}

test('a quick start shows neither', async ({ page, host }) => {
  await page.goto(host.address + HASH)
  await expect(page.locator('.answer')).toBeVisible()
  await expect(page.locator('#start')).toBeHidden()
})

test('download everything again gets past what the browser kept', async ({ page, host }) => {
  const whole = host.files
  remove(host, SCRIPTS['main script'])
  await page.goto(host.address + HASH)
  const again = page.getByRole('button', { name: 'Download everything again' })
  await host.stop()
  await again.click()
  await expect(page.locator('#start')).toContainText('Nothing has been deleted')
  const renewed = await startHost(whole)
  await page.route(`${host.address}**`, route =>
    route.continue({ url: route.request().url().replace(host.address, renewed.address) }),
  )
  await again.click()
  await expect(page.locator('.answer')).toBeVisible()
  await renewed.stop()
})

test('a page saved as it was on the screen, whose engine is gone', async ({ page }) => {
  await page.goto(forms['one file'] + HASH)
  await expect(page.locator('.answer')).toBeVisible()
  const drawn = await page.evaluate(() => document.documentElement.outerHTML)
  const broken = drawn.replace(/(<script id="?engine-wasm"?[^>]*>)[^<]*/, '$1AAAA')
  expect(broken).not.toBe(drawn)
  await page.route('http://saved.example/', route => route.fulfill({ contentType: 'text/html', body: broken }))
  await page.goto('http://saved.example/')
  await expectTold(page, 'missing or incomplete')
  await expect(page.locator('.answer')).toHaveCount(0)
})

test.describe('without scripts', () => {
  test.use({ javaScriptEnabled: false })
  test('it says that they are needed', async ({ page, host }) => {
    await page.goto(host.address)
    await expect.poll(() => page.locator('body').innerText()).toContain('These calculators need JavaScript')
    await expect(page.locator('#start')).toBeHidden()
  })
})

for (const [form, address] of Object.entries(forms)) {
  test(`nothing on the page moves its addresses or sends a form, ${form}`, async ({ page }) => {
    await page.goto(address)
    await expect(page.locator('main a').first()).toBeVisible()
    const violated = await page.evaluate(async () => {
      const found: string[] = []
      document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) => found.push(effectiveDirective))
      document.head.append(Object.assign(document.createElement('base'), { href: 'http://elsewhere.example/' }))
      const form = Object.assign(document.createElement('form'), { action: 'http://elsewhere.example/' })
      document.body.append(form)
      form.submit()
      await new Promise(done => setTimeout(done, 300))
      return { found, base: document.baseURI }
    })
    expect(violated.found).toEqual(expect.arrayContaining(['base-uri', 'form-action']))
    expect(violated.base).not.toContain('elsewhere')
    // In the page itself, whatever the host sends with it.
    const policy = await page.locator('meta[http-equiv=Content-Security-Policy]').getAttribute('content')
    expect(policy).toContain(form === 'served' ? "default-src 'self'" : "default-src 'none'")
    if (form === 'served')
      for (const kind of ['object', 'frame', 'font', 'media']) expect(policy).toContain(`${kind}-src 'none'`)
  })
}

async function expectTold(page: Page, why: string): Promise<void> {
  const place = page.locator('#start')
  await expect(place.locator('.stuck')).toBeVisible()
  await expect(place.getByText('Stageohm could not start.')).toBeVisible()
  await expect(place.getByText(why)).toBeVisible()
  // One reason, and not that it may only be slow.
  await expect(place.getByText('Still loading')).toBeHidden()
}

/** Takes a file from the host, or leaves half of it there. */
function remove(host: Host, pattern: RegExp, left: (half: Buffer) => Buffer | undefined = () => undefined): string {
  const files = new Map(host.files)
  let last: string | undefined
  for (const [name, content] of host.files) {
    if (!pattern.test(name)) continue
    const half = left(content.subarray(0, content.length >> 1))
    if (half === undefined) files.delete(name)
    else files.set(name, half)
    last = name
  }
  if (last === undefined) throw new Error(`the page has no ${pattern}`)
  host.files = files
  return last
}

/** Changes the page itself. */
function edit(host: Host, change: (text: string) => string): void {
  const files = new Map(host.files)
  const before = files.get('index.html')?.toString() ?? ''
  const after = change(before)
  expect(after).not.toBe(before)
  host.files = files.set('index.html', Buffer.from(after))
}

function replace(host: Host, pattern: RegExp, text: string): void {
  remove(host, pattern, () => Buffer.from(text))
}
