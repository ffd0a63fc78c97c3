// Six questions at the stage lip, from the start page of a phone to the answer in
// sight: at most four taps, twelve typed characters and one swipe each.

import type { Locator, Page } from '@playwright/test'
import { expect, open, test } from './page'

test.use({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true })

const MOST = { taps: 4, characters: 12, swipes: 1 }

/** A thumb that counts what it does, and hits only what is in sight. */
class Thumb {
  readonly done = { taps: 0, characters: 0, swipes: 0 }

  constructor(private readonly page: Page) {}

  async tap(target: Locator): Promise<void> {
    await this.see(target)
    await target.tap()
    this.done.taps += 1
  }

  async type(text: string): Promise<void> {
    await this.page.keyboard.type(text)
    this.done.characters += text.length
  }

  /** Swipes until the target is in sight. */
  async see(target: Locator): Promise<void> {
    await expect(target).toBeVisible()
    const height = this.page.viewportSize()?.height ?? 0
    while (true) {
      const box = await target.boundingBox()
      if (box === null || (box.y >= 0 && box.y + Math.min(box.height, height / 4) <= height)) break
      if (this.done.swipes >= MOST.swipes) throw new Error('out of sight after one swipe')
      const session = await this.page.context().newCDPSession(this.page)
      await session.send('Input.synthesizeScrollGesture', { x: 180, y: 600, yDistance: -500, speed: 2000 })
      this.done.swipes += 1
    }
  }
}

function reading(page: Page, id: string): Locator {
  return page.locator(`.answer [data-reading="${id}"]`)
}

async function ask(page: Page, question: string): Promise<Thumb> {
  const thumb = new Thumb(page)
  await open(page)
  await thumb.tap(page.getByLabel('What do you want to know?'))
  await thumb.type(question)
  return thumb
}

async function take(page: Page, thumb: Thumb, title: string): Promise<void> {
  const hit = page.locator('.hits li').first()
  await expect(hit.locator('.title')).toHaveText(title)
  await thumb.tap(hit.getByRole('link'))
}

function expectFew({ done }: Thumb): void {
  expect(done.taps).toBeLessThanOrEqual(MOST.taps)
  expect(done.characters).toBeLessThanOrEqual(MOST.characters)
  expect(done.swipes).toBeLessThanOrEqual(MOST.swipes)
}

test('which DI for a passive bass, 6 m and 30 m', async ({ page }) => {
  const thumb = await ask(page, 'bass 6m+30m')
  await take(page, thumb, 'DI box or straight in')
  await expect(page.locator('.reading.lead')).toContainText('passive bass, 6\u00a0m + 30\u00a0m')
  await thumb.see(reading(page, 'take').locator('.value'))
  await expect(reading(page, 'take')).toContainText(/DI/)
  expectFew(thumb)
})

test('will a 12 m lead dull this guitar', async ({ page }) => {
  const thumb = await ask(page, '12m guitar')
  await take(page, thumb, 'Pickup, lead and load')
  await thumb.see(reading(page, 'tone_loss').locator('.verdict'))
  // 2.5 H into 5 m more than twice as long: see the tests of the core.
  await expect(reading(page, 'tone_loss').locator('.verdict')).toContainText('clearly darker')
  expectFew(thumb)
})

test('hum on the keys, what now', async ({ page }) => {
  const thumb = await ask(page, 'hum keys')
  await take(page, thumb, 'Ground loop')
  await thumb.tap(page.locator('[data-field="connection"] select'))
  await page.locator('[data-field="connection"] select').selectOption('isolated')
  thumb.done.taps += 1
  await thumb.see(reading(page, 'signal_to_hum_a').locator('.verdict'))
  await expect(reading(page, 'signal_to_hum_a').locator('.verdict')).toHaveAttribute('data-tone', 'fine')
  expectFew(thumb)
})

test('+4 dBu into -10 dBV', async ({ page }) => {
  const thumb = await ask(page, '+4dBu -10dBV')
  await take(page, thumb, 'Levels')
  await thumb.see(reading(page, 'hotter').locator('.value'))
  // 4 − (−10 + 2.22) dB.
  await expect(reading(page, 'hotter')).toContainText('11.78')
  expectFew(thumb)
})

test('pinout of XLR to TRS', async ({ page }) => {
  const thumb = await ask(page, 'xlr trs')
  await take(page, thumb, 'TRS jack to XLR, balanced')
  const wiring = page.locator('.wiring').first()
  await thumb.see(wiring)
  await expect(page.locator('main')).toContainText('pin 2')
  expectFew(thumb)
})

test('does an active DI run on P24 over 80 m', async ({ page }) => {
  const thumb = await ask(page, 'P24 80m')
  await take(page, thumb, 'Phantom supply')
  await thumb.see(reading(page, 'voltage').locator('.verdict'))
  await expect(reading(page, 'voltage').locator('.verdict')).not.toHaveText('')
  expectFew(thumb)
})
