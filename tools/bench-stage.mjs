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
  await browser.close()
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
