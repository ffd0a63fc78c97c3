// What an input costs in the browser, and how soon a calculator is there, on a
// processor slowed down four times, which makes it about that of a cheap phone.

import { chromium as browserType } from '@playwright/test'
import { times } from './brief.mjs'
import { say } from './command.mjs'
import { host } from './host.mjs'
import { chromium } from './system-programs.mjs'
import { categories, workPerInput } from './trace.mjs'

const SLOWER = 4
/** Inputs of a case; each is a key press or a move of its own. */
const SAMPLES = times(120)
/** Between two inputs, in ms: somebody who types fast, and a slider that is dragged, which gives one a frame. */
const PAUSES = { text: 60, range: 16 }
/** An input is to cost so many times what it costs the least page. */
const GOAL = 2
const STARTS = times(9)

const screens = {
  phone: { width: 360, height: 740 },
  laptop: { width: 1280, height: 900 },
}

/** A screen, the field that is typed in, and the one whose slider is dragged. */
const cases = [
  ['levels', '#1/levels', 'level', '-7.5', 'crest'],
  ['pickup with three held', '#1/pickup/load_r=1M/load_r=10k/load_r=140k/load_r=47k', 'load_r', '140k'],
  ['noise floor', '#1/noise-floor', 'lead_length', '12.5'],
  ['whole line', '#1/whole-line', 'lead_length', '12.5'],
]

const kinds = [
  ['typing', 'text'],
  ['dragging', 'range'],
]

/** The least that a page can do with an input, so that the browser's own part is known. */
const LEAST = `<!doctype html><title>Least</title><input type=text><input type=range max=400><output></output><script>
  const output = document.querySelector('output')
  for (const input of document.querySelectorAll('input')) {
    input.oninput = () => requestAnimationFrame(() => (output.textContent = input.value))
  }
</script>`

export async function benchBrowser() {
  const address = await host(0, '/')
  const browser = await browserType.launch({
    executablePath: chromium(),
    chromiumSandbox: process.getuid?.() !== 0,
  })
  try {
    await benchInputs(browser, address)
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

/** What an input costs, until what is read first is drawn and in all, beside the least page. */
export async function benchInputs(browser, address) {
  say(`Work of the main thread an input, ${SLOWER} times slowed down (about three minutes)`)
  for (const [screen, viewport] of Object.entries(screens)) {
    for (const [doing, kind] of kinds) {
      print(`${doing}, ${screen}`, ['median', '95th', 'in all', '95th'])
      const page = await open(browser, viewport, 'about:blank')
      await page.setContent(LEAST)
      const least = await measure(browser, page, page.locator(`input[type=${kind}]`), kind, '140k')
      printWork('the least page there can be', least, least)
      await page.close()
      for (const [name, hash, typed, text, dragged = typed] of cases) {
        const page = await open(browser, viewport, address + hash)
        const field = kind === 'range' ? dragged : typed
        const input = page.locator(`[data-field="${field}"] input[type=${kind}]`)
        printWork(name, await measure(browser, page, input, kind, text), least)
        await page.close()
      }
    }
  }
}

async function open(browser, viewport, address) {
  const page = await browser.newPage({ viewport })
  await page.goto(address)
  const session = await page.context().newCDPSession(page)
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER })
  return page
}

/** Types the text again and again, letter by letter, or drags the slider to and fro. */
async function measure(browser, page, input, kind, text) {
  await input.focus()
  const { x, y, width, height } = await input.boundingBox()
  if (kind === 'range') {
    await page.mouse.move(x + width / 2, y + height / 2)
    await page.mouse.down()
  }
  await page.waitForTimeout(500)
  await browser.startTracing(page, { categories })
  for (let sample = 0; sample < SAMPLES; sample++) {
    if (kind === 'range') {
      const part = Math.abs((sample % 80) - 40) / 40
      await page.mouse.move(x + width * (0.2 + 0.6 * part), y + height / 2)
    } else {
      if (sample % text.length === 0) await input.evaluate(element => element.select())
      await page.keyboard.press(text[sample % text.length])
    }
    await page.waitForTimeout(PAUSES[kind])
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

function printWork(name, works, least) {
  const parts = ['first', 'all'].flatMap(until => [0.5, 0.95].map(part => [until, part]))
  const of = (works, [until, part]) =>
    share(
      works.map(work => work[until]),
      part,
    )
  const times = parts.map(part => `${(of(works, part) / of(least, part)).toFixed(1)}`)
  const note = works === least ? '' : `${times.join(', ')} times the least page; goal: ${GOAL}`
  print(
    name,
    parts.map(part => milliseconds(of(works, part))),
    `${works.length} inputs  ${note}`,
  )
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
