// Hearing an answer: nothing before the press, two rigs in turn, and all that ends it.

import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import {
  above,
  big,
  expectSilence,
  heard,
  HELD,
  levelAt,
  opened,
  openSection,
  PICKUP,
  play,
  problem,
  said,
  section,
  source,
  start,
  watchSound,
  type Watched,
} from './hearing'
import { expect, input, open, setting, test } from './page'
import { allForms } from './places'
import { oddHum, silence, wav } from './sounds'

const LOOP = '#1/ground-loop'
/** Its peaks reach no further than the limiter lets them, of full scale. */
const LOUDEST = 10 ** (-1 / 20)

for (const form of allForms) {
  test(`nothing sounds or is opened before the press, and the press plays, ${form}`, async ({ page }) => {
    await openSection(page, PICKUP, form)
    expect(await opened(page)).toEqual([])
    await expect(big(page)).toHaveText('Play this rig')
    await start(page)
    expect((await heard(page)).peak).toBeLessThanOrEqual(LOUDEST)
    await expect(said(page)).toHaveText('You hear this rig.')
    await section(page).getByRole('button', { name: 'Stop' }).click()
    await expectSilence(page)
    await expect(said(page)).toHaveText('It is silent.')
  })
}

test('one press goes to the other rig, as loud and with its own treble; so does a key', async ({ page }) => {
  await openSection(page, HELD)
  await section(page).getByLabel('Source', { exact: true }).selectOption('speech')
  await start(page)
  // Noise is steady once it has faded in.
  await page.waitForTimeout(3000)
  const [here, dark] = [await heard(page), await above(page, 3000)]
  await big(page).click()
  await expect(said(page)).toContainText('You hear the kept rig: ')
  await expect(said(page)).toContainText('2')
  await page.waitForTimeout(1500)
  const [there, bright] = [await heard(page), await above(page, 3000)]
  // Loudness is not rms: they come near it.
  expect(Math.abs(20 * Math.log10(there.rms / here.rms))).toBeLessThan(3)
  expect(bright - dark).toBeGreaterThan(3)
  await page.locator('body').press('x')
  await expect(said(page)).toHaveText('You hear this rig.')
  // Not while a text is typed, nor once it is switched off.
  await input(page, 'lead_length').press('x')
  await expect(said(page)).toHaveText('You hear this rig.')
  await section(page).getByLabel('The X key').uncheck()
  await page.locator('body').press('x')
  await expect(said(page)).toHaveText('You hear this rig.')
})

test('as it is, the softer one is told', async ({ page }) => {
  await openSection(page, '#1/pickup/load_r=10k/load_r=1M')
  await start(page)
  await expect(section(page)).toContainText(/this rig is brought up by .+\sdB/)
  await section(page).getByRole('radio', { name: 'As it is' }).check()
  await expect(section(page)).toContainText(/This rig is .+\sdB softer/)
  await expect(play(page)).toHaveAttribute('data-sounding', 'playing')
  // Of what a press would play nothing is told before it was made into sound.
  await section(page).getByRole('button', { name: 'Stop' }).click()
  await section(page).getByRole('radio', { name: 'Matched' }).check()
  await expect(section(page)).not.toContainText(/brought up|softer|equally loud/)
})

test('without a kept rig it is the source alone', async ({ page }) => {
  await openSection(page, PICKUP)
  await start(page)
  await big(page).click()
  await expect(said(page)).toHaveText('You hear the source alone.')
})

test('hum has its figure beside it, and can be left out', async ({ page }) => {
  await openSection(page, LOOP)
  const hum = section(page).locator('[data-added="hum"]')
  await expect(hum).toContainText(/This rig: hum [\d.]+\sdB below the signal/)
  await expect(section(page)).toContainText('do not reproduce 50 Hz')
  // It has nothing there itself.
  await source(page).selectOption('speech')
  await start(page)
  await page.waitForTimeout(1500)
  const before = await levelAt(page, 50)
  await hum.getByRole('checkbox').uncheck()
  await expect.poll(() => levelAt(page, 50)).toBeLessThan(before - 20)
  await expect(play(page)).toHaveAttribute('data-sounding', 'playing')
})

test('the volume only goes down', async ({ page }) => {
  await openSection(page, PICKUP)
  await section(page).getByLabel('Source', { exact: true }).selectOption('speech')
  await start(page)
  await page.waitForTimeout(3000)
  const before = await heard(page)
  const volume = section(page).getByLabel('Volume')
  await volume.press('End')
  await expect(volume).toHaveValue('0')
  await volume.fill('-20')
  await page.waitForTimeout(1500)
  expect(20 * Math.log10((await heard(page)).rms / before.rms)).toBeCloseTo(-20, 0)
})

const ENDS: Readonly<Record<string, (page: Page) => Promise<unknown>>> = {
  Escape: page => page.locator('body').press('Escape'),
  'a page out of sight': page =>
    page.evaluate(() => {
      Object.defineProperty(document, 'hidden', { configurable: true, get: () => true })
      document.dispatchEvent(new Event('visibilitychange'))
    }),
  'an output that goes away': page =>
    page.evaluate(() => (window as unknown as { watched: Watched }).watched.contexts[0]?.suspend()),
}

for (const [what, end] of Object.entries(ENDS)) {
  test(`${what} stops it, and it can be played again`, async ({ page }) => {
    await openSection(page, PICKUP)
    await start(page)
    await end(page)
    await expectSilence(page)
    if (what !== 'Escape') await expect(section(page).getByRole('alert')).not.toBeEmpty()
    await big(page).click()
    await expect(play(page)).toHaveAttribute('data-sounding', 'playing')
  })
}

const LEAVES: Readonly<Record<string, (page: Page) => Promise<unknown>>> = {
  'another calculator': page => page.evaluate(() => (location.hash = '#1/transformer')),
  'the start': page => page.evaluate(() => (location.hash = '')),
  'closing the section': page => section(page).locator('summary').first().click(),
}

for (const [what, leave] of Object.entries(LEAVES)) {
  test(`${what} ends it`, async ({ page }) => {
    await openSection(page, PICKUP)
    await start(page)
    await leave(page)
    await expect.poll(() => opened(page)).toEqual(['closed'])
  })
}

const REFUSALS = [
  ['not there', 'Open the page in another browser'],
  ['refused', 'Allow sound for this page'],
] as const

for (const [what, told] of REFUSALS) {
  test(`audio that is ${what} is said, with what to do`, async ({ page }) => {
    await page.addInitScript(what => {
      const { AudioContext } = window
      Reflect.deleteProperty(window, 'AudioContext')
      if (what === 'not there') return
      const refused = function () {
        throw new DOMException('', 'NotAllowedError')
      }
      refused.prototype = AudioContext.prototype
      Object.assign(window, { AudioContext: refused })
    }, what)
    await open(page, PICKUP)
    await section(page).locator('summary').first().click()
    await big(page).click()
    await expect(section(page).getByRole('alert')).toContainText(told)
    await expect(play(page)).toHaveAttribute('data-sounding', 'silent')
  })
}

const chooseFile = (page: Page, name: string, buffer: Buffer) =>
  section(page).locator('input[type=file]').setInputFiles({ name, mimeType: 'audio/wav', buffer })

const WRONG = [
  ['text.wav', Buffer.from('no sound'), 'cannot read the recording'],
  ['tick.wav', wav(oddHum(100), 0.08), /too short: it needs at least 1\ss/],
  ['silent.wav', silence(2), 'silent'],
  ['long.wav', silence(40), 'longer than 30'],
] as const

test('a recording is played, and goes on where another one is none', async ({ page }) => {
  await openSection(page, PICKUP)
  await chooseFile(page, 'line.wav', wav(oddHum(100), 2))
  await expect(source(page)).toHaveValue('file')
  await expect(source(page)).toContainText('Recording: line.wav')
  await start(page)
  for (const [name, buffer, told] of WRONG) {
    await chooseFile(page, name, buffer)
    await expect(problem(page)).toContainText(told)
    await expect(source(page)).toContainText('Recording: line.wav')
    await expect(play(page)).toHaveAttribute('data-sounding', 'playing')
  }
  expect((await heard(page)).peak).toBeGreaterThan(1e-3)
})

test('a recording that is ready too late does not take the place of what was chosen since', async ({ page }) => {
  await page.addInitScript(() => {
    const { decodeAudioData } = BaseAudioContext.prototype
    Object.assign(BaseAudioContext.prototype, {
      decodeAudioData(this: BaseAudioContext, bytes: ArrayBuffer) {
        return new Promise(done => {
          Object.assign(window, { arrive: () => done(decodeAudioData.call(this, bytes)) })
        })
      },
    })
  })
  await openSection(page, PICKUP)
  await chooseFile(page, 'high.wav', wav([{ hz: 5000, level: 0.5 }], 2))
  await big(page).click()
  await expect(play(page)).toHaveAttribute('data-sounding', 'opening')
  await page.waitForFunction(() => 'arrive' in window)
  await section(page).getByRole('button', { name: 'Stop' }).click()
  await source(page).selectOption('bass')
  await start(page)
  await page.evaluate(() => (window as unknown as { arrive: () => void }).arrive())
  // What is made anew is made of the bass.
  await input(page, 'load_r').fill('220k')
  await page.waitForTimeout(2500)
  expect(await above(page, 4000)).toBeLessThan(-10)
  await expect(play(page)).toHaveAttribute('data-sounding', 'playing')
})

test('who closes the section as soon as it is stopped leaves nothing behind', async ({ page }) => {
  await openSection(page, PICKUP)
  await start(page)
  await page.evaluate(() => {
    document.querySelector<HTMLElement>('.hear-stop')?.click()
    document.querySelector<HTMLElement>('.hear summary')?.click()
  })
  await expect.poll(() => opened(page)).toEqual(['closed'])
  // The fade would have ended by now.
  await page.waitForTimeout(500)
})

test('where a recording is none, the source chosen before it is back', async ({ page }) => {
  await openSection(page, PICKUP)
  await source(page).selectOption('keys')
  for (const [name, buffer, told] of WRONG) {
    await chooseFile(page, name, buffer)
    await expect(source(page)).toHaveValue('file')
    await big(page).click()
    await expect(problem(page)).toContainText(told)
    await expect(source(page)).toHaveValue('keys')
    await expect(play(page)).toHaveAttribute('data-sounding', 'silent')
  }
  await start(page)
})

test('one that begins in another tab of the page ends this one', async ({ page, context }) => {
  await openSection(page, PICKUP)
  await start(page)
  const other = await context.newPage()
  await openSection(other, PICKUP)
  await start(other)
  await expectSilence(page)
  await expect(problem(page)).toContainText('another window or tab')
  await expect(play(other)).toHaveAttribute('data-sounding', 'playing')
  await start(page)
  await expectSilence(other)
})

test('without a way to reach other tabs it plays all the same', async ({ page }) => {
  await page.addInitScript(() => {
    Object.assign(window, {
      BroadcastChannel: function () {
        throw new DOMException('', 'SecurityError')
      },
    })
  })
  await openSection(page, PICKUP)
  await start(page)
})

test('sound that the browser holds back is said, with what to do, and comes with the next press', async ({ page }) => {
  await page.addInitScript(() => {
    const { AudioContext } = window
    let times = 0
    // As one does that lets nothing begin by itself: what asks it to stays open.
    window.AudioContext = class extends AudioContext {
      constructor(options?: AudioContextOptions) {
        super(options)
        if (times++ > 0) return
        void this.suspend()
        Object.assign(this, { resume: () => new Promise(() => undefined) })
      }
    }
  })
  await openSection(page, PICKUP)
  await big(page).click()
  await expect(problem(page)).toContainText('holds the sound back')
  await expect(problem(page)).toContainText('Press Play again')
  await expect(play(page)).toHaveAttribute('data-sounding', 'silent')
  await expect.poll(() => opened(page)).toEqual(['closed'])
  await start(page)
  await expect(problem(page)).toHaveCount(0)
})

test('a difference that hardly anybody hears is told, and one that is heard is not', async ({ page }) => {
  // A centimetre more of a lead is a picofarad or so.
  await openSection(page, `${PICKUP}/lead_length=20.01_m`)
  await start(page)
  const told = section(page).locator('.hear-unheard')
  await expect(told).toHaveText('Hardly anybody would hear a difference between the two.')
  await section(page).getByLabel('Compare with').selectOption('flat')
  await expect(told).toHaveCount(0)
})

test('no section where there is nothing to hear', async ({ page }) => {
  await open(page, '#1/levels')
  await expect(page.getByRole('heading', { name: 'Share' })).toBeAttached()
  await expect(section(page)).toHaveCount(0)
})

test('in a compact frame it plays too', async ({ page }) => {
  await watchSound(page)
  await open(page, '#1/pickup?lesson&open=load_r,lead_length')
  await page.locator('.folded > summary').click()
  await section(page).locator('summary').first().click()
  await expect(section(page)).toContainText('For headphones only')
  await start(page)
})

test('with keys and a mouse, both are told of', async ({ page }) => {
  await openSection(page, PICKUP)
  await expect(section(page)).toContainText('Press Stop or Escape')
  await expect(section(page)).toContainText('or drop one here')
  await expect(section(page).getByLabel('The X key')).toBeVisible()
})

test('one that was kept and is the same as now is called so', async ({ page }) => {
  await openSection(page, `${PICKUP}/lead_length=20_m`)
  const against = section(page).getByLabel('Compare with')
  await expect(against.locator('option').first()).toHaveText('Kept, same as now')
  await start(page)
  await big(page).click()
  await expect(said(page)).toHaveText('You hear the kept rig. It is the same as now.')
  await input(page, 'lead_length').fill('2 m')
  await expect(against.locator('option').first()).toHaveText(/^Kept: Lead length 20/)
})

test('a file that says of itself that it is no recording is told when it is chosen', async ({ page }) => {
  await openSection(page, PICKUP)
  const choose = (name: string, mimeType: string, buffer: Buffer) =>
    section(page).locator('input[type=file]').setInputFiles({ name, mimeType, buffer })
  for (const [name, type, bytes] of [
    ['picture.png', 'image/png', 'a picture'],
    ['empty.wav', 'audio/wav', ''],
  ] as const) {
    await choose(name, type, Buffer.from(bytes))
    await expect(problem(page)).toContainText('cannot read the recording')
    await expect(source(page)).toHaveValue('bass')
    await choose('line.wav', 'audio/wav', wav(oddHum(100), 2))
    await expect(problem(page)).toHaveCount(0)
    await source(page).selectOption('bass')
  }
  expect(await opened(page)).toEqual([])
})

for (const [width, height, theme] of [
  [360, 740, 'dark'],
  [1440, 900, 'light'],
  [360, 740, 'stage'],
] as const) {
  test(`for everyone, ${width} pixels wide, ${theme}`, async ({ page }) => {
    await page.setViewportSize({ width, height })
    await watchSound(page)
    await open(page, HELD)
    await setting(page, theme)
    await section(page).locator('summary').first().click()
    await start(page)
    const { violations } = await new AxeBuilder({ page }).include('.hear').analyze()
    expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    const low = await section(page)
      .locator('summary, button:visible, select, .choices label, .switch')
      .evaluateAll(
        (all, least) => all.filter(one => one.getBoundingClientRect().height < least).map(one => one.outerHTML),
        theme === 'stage' ? 47.5 : 43.5,
      )
    expect(low).toEqual([])
    await page.keyboard.press('Escape')
    await expectSilence(page)
  })
}
