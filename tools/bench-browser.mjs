// What an input costs in the browser: the main thread's work from the key press
// until the frame is ready, on a processor slowed down four times.

import { chromium as browserType } from '@playwright/test'
import { host } from './host.mjs'
import { chromium } from './system-programs.mjs'

const SLOWER = 4
const SAMPLES = 120

const cases = [
  ['typing, pickup', '#1/pickup', 'load_r', ['100k', '120k', '140k', '160k']],
  [
    'typing, pickup with three held',
    '#1/pickup/load_r=1M/load_r=10k/load_r=47k/load_r=140k',
    'lead_length',
    ['4', '5', '6', '7'],
  ],
  ['typing, noise floor', '#1/noise-floor', 'lead_length', ['4', '5', '6', '7']],
  ['typing, levels', '#1/levels', 'level', ['1', '2', '3', '4']],
]

export async function benchBrowser() {
  const address = await host(0, '/')
  const browser = await browserType.launch({
    executablePath: chromium(),
    chromiumSandbox: process.getuid?.() !== 0,
  })
  try {
    console.log('main-thread work an input, ms'.padEnd(38), 'median', '95th', `(goals 8 and 16, at ${SLOWER}x slower)`)
    for (const [name, hash, field, texts] of cases) {
      const page = await browser.newPage({ viewport: { width: 360, height: 740 } })
      await page.goto(address + hash)
      const input = page.locator(`[data-field="${field}"] input[type=text]`)
      await input.waitFor()
      const session = await page.context().newCDPSession(page)
      await session.send('Performance.enable')
      await session.send('Emulation.setCPUThrottlingRate', { rate: SLOWER })
      const work = async () => {
        const { metrics } = await session.send('Performance.getMetrics')
        return 1000 * metrics.find(({ name }) => name === 'TaskDuration').value
      }
      const times = []
      for (let sample = 0; sample < SAMPLES; sample++) {
        await page.waitForTimeout(30)
        const before = await work()
        await input.evaluate(
          (element, text) =>
            new Promise(done => {
              element.value = text
              element.dispatchEvent(new Event('input', { bubbles: true }))
              requestAnimationFrame(() => requestAnimationFrame(done))
            }),
          texts[sample % texts.length],
        )
        times.push((await work()) - before)
      }
      times.sort((a, b) => a - b)
      const at = share => times[Math.floor(share * (SAMPLES - 1))].toFixed(1).padStart(6)
      console.log(name.padEnd(38), at(0.5), at(0.95))
      await page.close()
    }
  } finally {
    await browser.close()
  }
}
