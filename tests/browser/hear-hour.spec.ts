// An hour of switching and of new sounds, in less time than that: nothing is left behind by it.

import type { CDPSession, Page } from '@playwright/test'
import { expect, open, test } from './page'

/** A press in each second, and a new sound in each minute. */
const [SWITCHES, SOUNDS] = [3600, 60]
/** What texts of the page and optimised code may take besides, bytes. */
const SLACK = 512 * 1024

interface Watched {
  /** Nodes and buffers that have been made. */
  made: number
  readonly memories: WebAssembly.Memory[]
}

/** Counts what is made of the browser's audio, and keeps the memory of each engine. */
async function watchMemory(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const watched: Watched = { made: 0, memories: [] }
    Object.assign(window, { watched })
    for (const name of ['createGain', 'createBuffer', 'createBufferSource'] as const) {
      const make = BaseAudioContext.prototype[name] as (...args: unknown[]) => unknown
      Object.assign(BaseAudioContext.prototype, {
        [name](this: BaseAudioContext, ...args: unknown[]) {
          watched.made++
          return make.apply(this, args)
        },
      })
    }
    WebAssembly.Instance = class extends WebAssembly.Instance {
      constructor(module: WebAssembly.Module, imports?: WebAssembly.Imports) {
        super(module, imports)
        const { memory } = this.exports
        if (memory instanceof WebAssembly.Memory) watched.memories.push(memory)
      }
    }
  })
}

interface Used {
  readonly made: number
  /** Of the engine that makes sounds, bytes. */
  readonly engine: number
  readonly page: number
}

async function used(page: Page, inspector: CDPSession): Promise<Used> {
  await inspector.send('HeapProfiler.collectGarbage')
  const { usedSize } = await inspector.send('Runtime.getHeapUsage')
  const own = await page.evaluate(() => {
    const { made, memories } = (window as unknown as { watched: Watched }).watched
    return { made, engine: memories.at(-1)?.buffer.byteLength ?? 0 }
  })
  return { ...own, page: usedSize }
}

/** Presses the switch, and lets the page draw what came of it. */
async function press(page: Page, times: number): Promise<void> {
  await page.evaluate(async times => {
    for (let pressed = 0; pressed < times; pressed++) {
      document.querySelector<HTMLButtonElement>('.hear .hear-switch')?.click()
      await new Promise(done => setTimeout(done))
    }
  }, times)
}

const made = (page: Page) => page.evaluate(() => (window as unknown as { watched: Watched }).watched.made)

/** Chooses another source again and again, each once the last one plays. */
async function choose(page: Page, sounds: number): Promise<void> {
  const source = page.locator('.hear').getByLabel('Source', { exact: true })
  for (let sound = 0; sound < sounds; sound++) {
    const before = await made(page)
    await source.selectOption(sound % 2 === 0 ? 'guitar' : 'bass')
    await expect.poll(() => made(page)).toBeGreaterThan(before)
  }
}

test('an hour of switching leaves nothing behind', async ({ page }) => {
  test.setTimeout(240_000)
  await watchMemory(page)
  await open(page, '#1/pickup/lead_length=20_m/lead_length=2_m')
  await page.locator('.hear summary').first().click()
  await page.locator('.hear .hear-switch').click()
  await expect(page.locator('.hear .hear-play')).toHaveAttribute('data-sounding', 'playing')
  const inspector = await page.context().newCDPSession(page)
  // Both banks of sound are made, and the code of the page is warm.
  await choose(page, 4)
  await press(page, 200)
  const before = await used(page, inspector)
  expect(before.engine).toBeGreaterThan(0)

  await press(page, SWITCHES)
  const switched = await used(page, inspector)
  expect(switched.made).toBe(before.made)
  expect(switched.engine).toBe(before.engine)
  expect(switched.page).toBeLessThan(before.page + SLACK)

  await choose(page, SOUNDS)
  const renewed = await used(page, inspector)
  expect(renewed.engine).toBe(before.engine)
  expect(renewed.page).toBeLessThan(before.page + SLACK)
  await expect(page.locator('.hear .hear-play')).toHaveAttribute('data-sounding', 'playing')
})
