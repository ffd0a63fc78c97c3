// How long draws of tolerances take in a browser: the engine alone, and the
// whole answers of the page's calculators.

import { chromium as browserType } from '@playwright/test'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { times } from './brief.mjs'
import { output, run, say } from './command.mjs'
import { host } from './host.mjs'
import { chromium } from './system-programs.mjs'

const RUNS = times(5)

/** The page must have been built. */
export async function benchTolerance() {
  const target = ['--profile', 'page', '--target', 'wasm32-unknown-unknown']
  run('cargo', ['build', '--quiet', '--locked', ...target, '--package', 'stageohm-web', '--example', 'pickup_draws'])
  const { target_directory } = JSON.parse(output('cargo', ['metadata', '--no-deps', '--format-version', '1']))
  const draws = readFileSync(join(target_directory, 'wasm32-unknown-unknown/page/examples/pickup_draws.wasm'))

  say('Draws of tolerances in the browser, shortest and middle of a few runs')
  const browser = await browserType.launch({ executablePath: chromium(), chromiumSandbox: process.getuid?.() !== 0 })
  try {
    const page = await browser.newPage()
    await page.goto(await host(0, '/'))
    await page.locator('main a').first().waitFor()
    const ofChain = await page.evaluate(timeDraws, [draws.toString('base64'), RUNS])
    print('10000 draws of a pickup chain, 200 points', ofChain, '200 ms')
    for (const [id, times] of await page.evaluate(timeAnswers, RUNS)) print(`2000 draws: ${id}`, times, '1 s')
  } finally {
    await browser.close()
  }
}

function print(name, times, goal) {
  const sorted = times.toSorted((a, b) => a - b)
  const [shortest, middle] = [sorted[0], sorted[sorted.length >> 1]].map(time => `${time.toFixed(0)} ms`.padStart(9))
  console.log(`${name.padEnd(46)} ${shortest} ${middle}  goal: ${goal}`)
}

// These two run in the browser.

async function timeDraws([base64, runs]) {
  const bytes = Uint8Array.from(atob(base64), letter => letter.charCodeAt(0))
  const { instance } = await WebAssembly.instantiate(bytes)
  return Array.from({ length: runs }, () => {
    const start = performance.now()
    instance.exports.main(0, 0)
    return performance.now() - start
  })
}

async function timeAnswers(runs) {
  const address = id => document.getElementById(id).href
  const engine = engineGlue()
  engine.initSync({ module: await WebAssembly.compileStreaming(fetch(address('engine-wasm'))) })
  engine.bring_words('en', await (await fetch(address('engine-words'))).text())
  const settings = { decimal: 'point', length: 'metre', mains: '50', language: 'en' }
  const time = calculator => {
    const start = performance.now()
    engine.answer({ calculator, settings, working: false, tolerances: {} })
    return performance.now() - start
  }
  const known = engine.describe(settings).filter(({ tolerances }) => tolerances)
  return known.map(({ id }) => [id, Array.from({ length: runs }, () => time(id))])
}
