// How long the stage takes in a browser, away from the main thread: its rows, one that
// is edited, and its ground map.

import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { chromium as browserType } from '@playwright/test'
import { times as few } from './brief.mjs'
import { say } from './command.mjs'
import { root } from './folders.mjs'
import { host } from './host.mjs'
import { chromium } from './system-programs.mjs'
import { categories, workPerInput } from './trace.mjs'
import { madeUp } from '../tests/fixtures/ground-map.mjs'

const ROUNDS = few(15)
/** Rows, and the goal for all of them, ms. */
const SIZES = [
  [50, 50],
  [500, 500],
]

export async function benchStage() {
  say('The stage in a worker of the browser, from the question to the answer (half a minute)')
  const example = JSON.parse(readFileSync(join(root, 'crate/examples/show.json'), 'utf8'))
  const address = await host(0, '/')
  const browser = await browserType.launch({ executablePath: chromium(), chromiumSandbox: process.getuid?.() !== 0 })
  const page = await browser.newPage()
  await page.goto(address)
  print('', ['median', 'longest'])
  for (const [rows, goal] of SIZES) {
    const times = await page.evaluate(timed, { show: grown(example, rows), rounds: ROUNDS })
    for (const [what, list] of Object.entries(times)) {
      const told = what === 'rows and totals' ? `goal: ${goal} ms` : ''
      print(`${rows} rows: ${what}`, [median(list), Math.max(...list)].map(milliseconds), told)
    }
  }
  await benchMap(browser, address)
  await browser.close()
}

/** Places and wires of a ground map that is moved by hand, and how often. */
const MAPS = [
  [10, 15],
  [100, 200],
  [500, 1000],
  [1000, 2000],
]
const MOVES = few(120)
const SLOWER = 4
const SMOOTH = 16

/** What moving the picture of the ground map costs the main thread, a move of the pointer each. */
export async function benchMap(browser, address) {
  say(`Work of the main thread while the ground map is moved, ${SLOWER} times slowed down`)
  print('', ['nodes', 'median', '95th'])
  const least = await browser.newPage({ viewport: { width: 1280, height: 900 } })
  await least.setContent(LEAST)
  await slow(least)
  printMoved('the least page there can be', await moved(browser, least), 1)
  await least.close()
  for (const [places, wires] of MAPS) {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
    const nodes = await openMap(page, address, madeUp(places, wires))
    for (const [how, closer] of [
      ['at first', 0],
      ['closer', 4],
    ]) {
      for (let press = 0; press < closer; press++) await page.getByRole('button', { name: 'Zoom in' }).click()
      printMoved(`${places} places, ${wires} wires, ${how}`, await moved(browser, page), nodes)
    }
    await page.close()
  }
}

/** The least that a page can do with a drag, so that the browser's own part is known. */
const LEAST = `<!doctype html><title>Least</title><style>.map-frame{height:540px;overflow:hidden}
  .map-frame *{height:2000px;width:2000px;will-change:transform;background:linear-gradient(red,blue)}</style>
  <div class=map-frame><div></div></div><script>
  const moved = document.querySelector('.map-frame *')
  onpointermove = ({ clientX, clientY }) => requestAnimationFrame(() => {
    moved.style.transform = 'translate(' + clientX + 'px,' + clientY + 'px)'
  })
</script>`

function printMoved(name, work, nodes) {
  const figures = [0.5, 0.95].map(part => milliseconds(share(work, part)))
  print(name, [`${nodes}`, ...figures], `goal: ${SMOOTH} ms`)
}

async function slow(page) {
  const session = await page.context().newCDPSession(page)
  await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER })
}

/** Opens the view with this map in the place of the one that the engine would give; how many nodes it has. */
async function openMap(page, address, map) {
  await page.addInitScript(given => {
    const Real = globalThis.Worker
    globalThis.Worker = class extends Real {
      postMessage(asked) {
        if (asked.call !== 'stage_map') return super.postMessage(asked)
        const data = { number: asked.number, result: given }
        setTimeout(() => this.dispatchEvent(new MessageEvent('message', { data })))
      }
    }
  }, map)
  await page.goto(`${address}#1/stage/map`)
  await page.locator('.map-frame').scrollIntoViewIfNeeded()
  await page.waitForTimeout(1500)
  await slow(page)
  return page.locator('.map-frame *').count()
}

/** Drags the picture around; the work of each move, ms. */
async function moved(browser, page) {
  const { x, y, width, height } = await page.locator('.map-frame').boundingBox()
  const to = angle => [x + width / 2 + 150 * Math.sin(angle / 8), y + height / 2 + 100 * Math.cos(angle / 7)]
  await page.mouse.move(...to(0))
  await page.waitForTimeout(500)
  await page.mouse.down()
  await browser.startTracing(page, { categories })
  for (let move = 1; move <= MOVES; move++) {
    await page.mouse.move(...to(move))
    await page.waitForTimeout(SMOOTH)
  }
  const trace = JSON.parse(await browser.stopTracing())
  await page.mouse.up()
  return workPerInput(trace, 'pointermove').map(({ all }) => all)
}

function share(list, part) {
  return [...list].sort((a, b) => a - b)[Math.floor(list.length * part)]
}

/** A show of so many rows: those of the example again and again, no two with the same values. */
function grown(example, rows) {
  const lines = Array.from({ length: rows }, (_, place) => {
    const line = example.lines[place % example.lines.length]
    const values = { ...line.values, run_length: `${10 + place / 10} m` }
    return { ...line, id: `line-${place}`, channel: `${place + 1}`, pair: '', values }
  })
  return { ...example, lines }
}

/** In the page: an engine in a worker, as the page starts it, and how long it takes. */
async function timed({ show, rounds }) {
  const href = id => document.getElementById(id).href
  const [bytes, words] = await Promise.all([
    fetch(href('engine-wasm')).then(response => response.arrayBuffer()),
    fetch(href('engine-words')).then(response => response.text()),
  ])
  const module = await WebAssembly.compile(bytes)
  const settings = { decimal: 'point', length: 'metre', mains: '50', language: 'en' }
  const worker = () => {
    const made = new Worker(href('worker-source'))
    made.postMessage({ module, words, glue: document.getElementById('engine-glue').src })
    return made
  }
  const ask = (made, call, ...given) =>
    new Promise((done, failed) => {
      made.onmessage = ({ data }) => ('error' in data ? failed(new Error(data.error)) : done(data.result))
      made.postMessage({ call, given, number: 0 })
    })
  const read = made => ask(made, 'stage_read', show, settings).then(({ show }) => show)
  const times = { 'rows and totals': [], 'one row edited': [], 'ground map': [] }
  const time = async (what, ...asked) => {
    const start = performance.now()
    await ask(...asked)
    times[what].push(performance.now() - start)
  }
  for (let round = 0; round < rounds; round++) {
    const made = worker()
    const whole = await read(made)
    await time('rows and totals', made, 'stage_solve', whole)
    const lines = whole.lines.with(7, { ...whole.lines[7], values: { run_length: `${round + 90} m` } })
    await time('one row edited', made, 'stage_solve', { ...whole, lines })
    await time('ground map', made, 'stage_map', whole, 0, settings)
    made.terminate()
  }
  return times
}

function median(list) {
  return [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)]
}

function milliseconds(time) {
  return `${time.toFixed(1)} ms`
}

function print(name, figures, told = '') {
  console.log(`${name.padEnd(40)} ${figures.map(figure => figure.padStart(12)).join(' ')}  ${told}`.trimEnd())
}
