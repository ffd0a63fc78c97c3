// What an input costs in the browser, and how soon a calculator is there, on a
// processor slowed down four times, which makes it about that of a cheap phone.

import { chromium as browserType } from '@playwright/test'
import { times } from './brief.mjs'
import { say } from './command.mjs'
import { host } from './host.mjs'
import { chromium } from './system-programs.mjs'
import { categories, workPerInput } from './trace.mjs'

const SLOWER = 4
/** Inputs of a case; each is a key press of its own. */
const SAMPLES = times(120)
/** Between two inputs, in ms: somebody who types fast. */
const PAUSE = 60
const STARTS = times(9)

const screens = {
  phone: { width: 360, height: 740 },
  laptop: { width: 1280, height: 900 },
}

const cases = [
  ['pickup, typing', '#1/pickup', 'load_r', 'text', '140k'],
  ['pickup with three held, slider', '#1/pickup/load_r=1M/load_r=10k/load_r=140k/load_r=47k', 'load_r', 'range'],
  ['noise floor, typing', '#1/noise-floor', 'lead_length', 'text', '12.5'],
  ['levels, typing', '#1/levels', 'level', 'text', '-7.5'],
]

/** The least that a page can do with an input, so that the browser's own part is known. */
const LEAST = `<!doctype html><title>Least</title><input><output></output><script>
  const [input, output] = document.body.children
  input.oninput = () => requestAnimationFrame(() => (output.textContent = input.value))
</script>`

export async function benchBrowser() {
  const address = await host(0, '/')
  const browser = await browserType.launch({
    executablePath: chromium(),
    chromiumSandbox: process.getuid?.() !== 0,
  })
  try {
    say(`Work of the main thread an input, ${SLOWER} times slowed down (about a minute)`)
    print('', ['median', '95th'])
    for (const [screen, viewport] of Object.entries(screens)) {
      const page = await open(browser, viewport, 'about:blank')
      await page.setContent(LEAST)
      const least = await measure(browser, page, page.locator('input'), '140k')
      printWork(`the least page there can be, ${screen}`, least)
      const goal = `goal: ${milliseconds(2 * share(least, 0.5))}, twice the least page`
      await page.close()
      for (const [name, hash, field, kind, text] of cases) {
        const page = await open(browser, viewport, address + hash)
        const works = await measure(browser, page, page.locator(`[data-field="${field}"] input[type=${kind}]`), text)
        printWork(`${name}, ${screen}`, works, goal)
        await page.close()
      }
    }
    const installed = await install(browser, address)
    for (const [name, context] of [
      ['from the address to the first answer', browser],
      ['the same installed, without a network', installed],
    ]) {
      const starts = []
      for (let start = 0; start < STARTS; start++) starts.push(await timeStart(context, address))
      print(name, [share(starts, 0.5), share(starts, 0.95)].map(milliseconds), 'goal: 1 s')
    }
  } finally {
    await browser.close()
  }
}

async function open(browser, viewport, address) {
  const page = await browser.newPage({ viewport })
  await page.goto(address)
  const session = await page.context().newCDPSession(page)
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER })
  return page
}

/** Types the text again and again, letter by letter, or moves the slider to and fro. */
async function measure(browser, page, input, text) {
  await input.focus()
  await page.waitForTimeout(500)
  await browser.startTracing(page, { categories })
  for (let sample = 0; sample < SAMPLES; sample++) {
    if (text === undefined) await page.keyboard.press(sample % 40 < 20 ? 'ArrowLeft' : 'ArrowRight')
    else {
      if (sample % text.length === 0) await input.evaluate(element => element.select())
      await page.keyboard.press(text[sample % text.length])
    }
    await page.waitForTimeout(PAUSE)
  }
  return workPerInput(JSON.parse(await browser.stopTracing()))
}

/** A browser that has visited the page once, and has no network any more. */
async function install(browser, address) {
  const context = await browser.newContext()
  const page = await context.newPage()
  await page.goto(address)
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null)
  await page.close()
  await context.setOffline(true)
  return context
}

/** How long the page takes to show its first answer, in ms. */
async function timeStart(context, address) {
  const page = await context.newPage()
  await page.setViewportSize(screens.phone)
  const session = await page.context().newCDPSession(page)
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER })
  await page.addInitScript(() => {
    const look = () => {
      if (document.querySelector('.answer .headline')) window.answeredAt = performance.now()
      else requestAnimationFrame(look)
    }
    look()
  })
  await page.goto(`${address}#1/pickup`)
  const time = await page.waitForFunction(() => window.answeredAt)
  const milliseconds = await time.jsonValue()
  await page.close()
  return milliseconds
}

function printWork(name, works, goal = '') {
  print(name, [share(works, 0.5), share(works, 0.95)].map(milliseconds), `${works.length} inputs  ${goal}`)
}

function share(numbers, part) {
  const sorted = numbers.toSorted((a, b) => a - b)
  return sorted[Math.floor(part * (sorted.length - 1))]
}

function milliseconds(number) {
  return `${number.toFixed(1)} ms`
}

function print(name, numbers, note = '') {
  console.log(name.padEnd(42), ...numbers.map(text => text.padStart(10)), ` ${note}`)
}
