// The ears of the tests, and their way to what is heard.

import type { Locator, Page } from '@playwright/test'
import { expect, open } from './page'
import type { Form } from './places'

// A lead of so many metres takes treble that is heard.
export const PICKUP = '#1/pickup/lead_length=20_m'
export const HELD = `${PICKUP}/lead_length=2_m`

export interface Watched {
  readonly contexts: AudioContext[]
  readonly out: AnalyserNode[]
}

/** Keeps what is opened, and listens to what is joined to the way out. */
export async function watchSound(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const watched: Watched = { contexts: [], out: [] }
    Object.assign(window, { watched })
    window.AudioContext = class extends AudioContext {
      constructor(options?: AudioContextOptions) {
        super(options)
        watched.contexts.push(this)
      }
    }
    const connect = AudioNode.prototype.connect as (this: AudioNode, to: AudioNode, ...rest: number[]) => AudioNode
    Object.assign(AudioNode.prototype, {
      connect(this: AudioNode, to: AudioNode, ...rest: number[]) {
        if (to instanceof AudioDestinationNode) {
          const listener = new AnalyserNode(this.context, { fftSize: 32_768, smoothingTimeConstant: 0 })
          connect.call(this, listener)
          watched.out.push(listener)
        }
        return connect.call(this, to, ...rest)
      },
    })
  })
}

/** The highest peak and the rms value of the last two thirds of a second. */
export function heard(page: Page): Promise<{ peak: number; rms: number }> {
  return page.evaluate(() => {
    const { out } = (window as unknown as { watched: Watched }).watched
    let [peak, power] = [0, 0]
    for (const node of out) {
      const samples = new Float32Array(node.fftSize)
      node.getFloatTimeDomainData(samples)
      for (const sample of samples) {
        peak = Math.max(peak, Math.abs(sample))
        power += (sample * sample) / samples.length
      }
    }
    return { peak, rms: Math.sqrt(power) }
  })
}

/** How much of what is heard lies above so many hertz, in decibels of all of it. */
export function above(page: Page, hz: number): Promise<number> {
  return page.evaluate(hz => {
    const { out } = (window as unknown as { watched: Watched }).watched
    let [all, high] = [0, 0]
    for (const node of out) {
      const levels = new Float32Array(node.frequencyBinCount)
      node.getFloatFrequencyData(levels)
      levels.forEach((level, bin) => {
        const power = 10 ** (level / 10)
        all += power
        if ((bin * node.context.sampleRate) / node.fftSize > hz) high += power
      })
    }
    return 10 * Math.log10(high / all)
  }, hz)
}

/** How much is heard at so many hertz, in decibels of full scale. */
export function levelAt(page: Page, hz: number): Promise<number> {
  return page.evaluate(hz => {
    const { out } = (window as unknown as { watched: Watched }).watched
    return Math.max(
      ...out.map(node => {
        const levels = new Float32Array(node.frequencyBinCount)
        node.getFloatFrequencyData(levels)
        return levels[Math.round((hz * node.fftSize) / node.context.sampleRate)] ?? NaN
      }),
    )
  }, hz)
}

export const opened = (page: Page) =>
  page.evaluate(() => (window as unknown as { watched: Watched }).watched.contexts.map(({ state }) => state))

export const section = (page: Page) => page.locator('.hear')
export const big = (page: Page) => section(page).locator('.hear-switch')
export const play = (page: Page) => section(page).locator('.hear-play')
export const said = (page: Page) => section(page).getByRole('status')

export async function openSection(page: Page, hash: string, form: Form = 'served'): Promise<Locator> {
  await watchSound(page)
  await open(page, hash, form)
  await section(page).locator('summary').first().click()
  await expect(section(page)).toContainText('For headphones only')
  return section(page)
}

export async function start(page: Page): Promise<void> {
  await big(page).click()
  await expect(play(page)).toHaveAttribute('data-sounding', 'playing')
  await expect.poll(async () => (await heard(page)).peak).toBeGreaterThan(1e-3)
}

export async function expectSilence(page: Page): Promise<void> {
  await expect(play(page)).toHaveAttribute('data-sounding', 'silent')
  await expect.poll(() => opened(page)).not.toContain('running')
}

export const source = (page: Page) => section(page).getByLabel('Source', { exact: true })
export const problem = (page: Page) => section(page).getByRole('alert')
