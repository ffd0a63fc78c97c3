// Listening to a fault: a microphone that plays a file, and recordings, good and bad.

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import AxeBuilder from '@axe-core/playwright'
import { chromium, type Locator, type Page } from '@playwright/test'
import { expect, open, setting, test } from './page'
import { allForms, forms, type Form } from './places'
import { bursts, oddHum, silence, wav } from './sounds'

const FAULT = '#1/fault/hum.one'
const MAINS = 50.02

const folder = mkdtempSync(join(tmpdir(), 'stageohm-listen-'))
const played = join(folder, 'hum.wav')
// It goes round and round: fifty seconds are a whole number of its periods.
writeFileSync(played, wav(oddHum(MAINS), 50))
test.afterAll(() => rmSync(folder, { recursive: true, force: true }))

const launchOptions = {
  executablePath: process.env['STAGEOHM_CHROMIUM'] ?? '/usr/bin/chromium',
  chromiumSandbox: process.getuid?.() !== 0,
}

test.use({
  launchOptions: {
    ...launchOptions,
    args: [
      '--use-fake-device-for-media-stream',
      '--use-fake-ui-for-media-stream',
      `--use-file-for-fake-audio-capture=${played}`,
    ],
  },
})

function panel(page: Page): Locator {
  return page.locator('.listen')
}

async function openPanel(page: Page, form: Form = 'served', hash = FAULT): Promise<Locator> {
  await open(page, hash, form)
  await panel(page).locator('summary').first().click()
  await expect(panel(page)).toContainText('never played back')
  return panel(page)
}

/** The first family of those that are shown. */
function best(page: Page): Locator {
  return panel(page).locator('.listen-families li').first()
}

/** How many points of the spectrum's picture are not empty. */
function drawn(page: Page): Promise<number> {
  return panel(page)
    .locator('canvas.listen-live')
    .evaluate((canvas: HTMLCanvasElement) => {
      const data = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height).data ?? []
      return data.filter((value, at) => at % 4 === 3 && value > 0).length
    })
}

function mark(page: Page): Locator {
  return panel(page).locator('.listen-on[data-state=on]')
}

/** Keeps what the page was given and what it joined to the way out. */
async function watchSound(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const watched = { streams: [] as MediaStream[], asked: [] as unknown[], out: [] as AnalyserNode[] }
    Object.assign(window, { watched })
    const { mediaDevices } = navigator
    const ask = mediaDevices.getUserMedia.bind(mediaDevices)
    mediaDevices.getUserMedia = async wanted => {
      watched.asked.push(wanted)
      const stream = await ask(wanted)
      watched.streams.push(stream)
      return stream
    }
    const connect = AudioNode.prototype.connect as (this: AudioNode, to: AudioNode, ...rest: number[]) => AudioNode
    Object.assign(AudioNode.prototype, {
      connect(this: AudioNode, to: AudioNode, ...rest: number[]) {
        if (to instanceof AudioDestinationNode) {
          const listener = new AnalyserNode(this.context)
          connect.call(this, listener)
          watched.out.push(listener)
        }
        return connect.call(this, to, ...rest)
      },
    })
  })
}

interface Watched {
  readonly streams: MediaStream[]
  readonly asked: MediaStreamConstraints[]
  readonly out: AnalyserNode[]
}

/** How the tracks stand that the page was given. */
function tracks(page: Page): Promise<string[]> {
  return page.evaluate(() =>
    (window as unknown as { watched: Watched }).watched.streams.flatMap(stream =>
      stream.getTracks().map(({ readyState }) => readyState),
    ),
  )
}

async function give(page: Page, name: string, buffer: Buffer): Promise<void> {
  await panel(page).locator('input[type=file]').setInputFiles({ name, mimeType: 'audio/wav', buffer })
}

for (const form of allForms) {
  test(`the microphone hears the mains and their odd harmonics, ${form}`, async ({ page }) => {
    await watchSound(page)
    const listen = await openPanel(page, form)
    await expect(listen).toContainText('never played back')
    await listen.getByRole('button', { name: 'Listen now' }).click()
    await expect(mark(page)).toContainText('The microphone is on')
    await expect(best(page)).toHaveAttribute('data-family', 'mains-odd')
    await expect(listen).toContainText('Odd harmonics lead')
    const mains = async () => Number(/Mains ([\d.]+) Hz/.exec(await listen.locator('.listen-mains').innerText())?.[1])
    await expect.poll(async () => Math.abs((await mains()) - MAINS)).toBeLessThan(0.02)
    await expect.poll(() => drawn(page)).toBeGreaterThan(500)

    const [wanted, heard] = await page.evaluate(() => {
      const { asked, out } = (window as unknown as { watched: Watched }).watched
      const peaks = out.map(node => {
        const samples = new Float32Array(node.fftSize)
        node.getFloatTimeDomainData(samples)
        return samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0)
      })
      return [asked[0]?.audio, peaks]
    })
    // As raw as it can be had, and nothing of it comes out.
    expect(wanted).toMatchObject({ echoCancellation: false, noiseSuppression: false, autoGainControl: false })
    expect(heard).toEqual([0])
    expect(await tracks(page)).toEqual(['live'])
    await listen.getByRole('button', { name: 'Stop' }).click()
    await expect(mark(page)).toBeHidden()
    expect(await tracks(page)).toEqual(['ended'])
  })
}

test('the microphone goes off when the page is hidden, left, or the panel closed', async ({ page }) => {
  await watchSound(page)
  const listen = await openPanel(page)
  const start = async () => {
    await listen.getByRole('button', { name: 'Listen now' }).click()
    await expect(mark(page)).toBeVisible()
    expect((await tracks(page)).at(-1)).toBe('live')
  }
  await start()
  await page.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true })
    document.dispatchEvent(new Event('visibilitychange'))
    Reflect.deleteProperty(document, 'visibilityState')
  })
  await expect(listen).toContainText('out of sight')
  expect(await tracks(page)).toEqual(['ended'])

  await start()
  await listen.locator('summary').first().click()
  await expect.poll(() => tracks(page)).toEqual(['ended', 'ended'])

  await listen.locator('summary').first().click()
  await start()
  await page.evaluate(() => (location.hash = '#1/pickup'))
  await expect.poll(() => tracks(page)).toEqual(['ended', 'ended', 'ended'])
})

test('the microphone goes off when nobody touches the page for two minutes', async ({ page }) => {
  await watchSound(page)
  await page.clock.install()
  const listen = await openPanel(page)
  await listen.getByRole('button', { name: 'Listen now' }).click()
  await expect(mark(page)).toBeVisible()
  await page.clock.fastForward('01:50')
  await page.keyboard.press('Shift')
  await page.clock.fastForward('01:50')
  expect(await tracks(page)).toEqual(['live'])
  await page.clock.fastForward('00:11')
  await expect(listen).toContainText('nobody touched the page')
  expect(await tracks(page)).toEqual(['ended'])
})

test('where the page was busy and samples went missing, what is heard begins anew', async ({ page }) => {
  const listen = await openPanel(page)
  await listen.getByRole('button', { name: 'Listen now' }).click()
  const seconds = async () => Number(/over ([\d.]+)\ss/.exec(await listen.locator('.listen-said').innerText())?.[1])
  await expect.poll(seconds).toBeGreaterThan(4)
  await page.evaluate(() => {
    const begun = performance.now()
    while (performance.now() - begun < 2500);
  })
  await expect.poll(seconds, { intervals: [200] }).toBeLessThan(4)
  await expect(listen.locator('.listen-mains')).toContainText('Mains 50.02 Hz')
})

test('an input that is taken away is told', async ({ page }) => {
  await watchSound(page)
  const listen = await openPanel(page)
  await listen.getByRole('button', { name: 'Listen now' }).click()
  await expect(mark(page)).toBeVisible()
  await page.evaluate(() => {
    const { streams } = (window as unknown as { watched: Watched }).watched
    streams[0]?.getAudioTracks()[0]?.dispatchEvent(new Event('ended'))
  })
  await expect(listen.getByRole('alert')).toContainText('taken away')
  expect(await tracks(page)).toEqual(['ended'])
})

test('a refused microphone is told, and a recording still works', async () => {
  const browser = await chromium.launch({
    ...launchOptions,
    args: ['--use-fake-device-for-media-stream', '--deny-permission-prompts'],
  })
  const page = await browser.newPage({ serviceWorkers: 'block' })
  await page.goto(forms['served'] + FAULT)
  await panel(page).locator('summary').first().click()
  await panel(page).getByRole('button', { name: 'Listen now' }).click()
  await expect(panel(page).getByRole('alert')).toContainText('was refused')
  await give(page, 'hum.wav', wav(oddHum(60), 4))
  await expect(panel(page)).toContainText('Mains 60.00 Hz')
  await browser.close()
})

test('where sound never starts the page says so, and a recording still works', async ({ page }) => {
  await watchSound(page)
  await page.addInitScript(() => {
    AudioContext.prototype.resume = () => new Promise(() => undefined)
  })
  const listen = await openPanel(page)
  await listen.getByRole('button', { name: 'Listen now' }).click()
  await expect(listen.getByRole('alert')).toContainText('Sound does not start here', { timeout: 20_000 })
  expect(await tracks(page)).toEqual(['ended'])
  await give(page, 'hum.wav', wav(oddHum(60), 4))
  await expect(listen).toContainText('Mains 60.00 Hz')
})

for (const [name, text] of [
  ['NotFoundError', 'No microphone or input was found'],
  ['NotReadableError', 'in use by another program'],
] as const) {
  test(`${name} has its own words`, async ({ page }) => {
    await page.addInitScript(name => {
      navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('', name))
    }, name)
    const listen = await openPanel(page)
    await listen.getByRole('button', { name: 'Listen now' }).click()
    await expect(listen.getByRole('alert')).toContainText(text)
  })
}

test('without any microphone the page says so and offers a recording', async ({ page }) => {
  await page.addInitScript(() => Reflect.deleteProperty(Navigator.prototype, 'mediaDevices'))
  const listen = await openPanel(page)
  await expect(listen).toContainText('gives this page no microphone')
  await expect(listen.getByRole('button', { name: 'Listen now' })).toHaveCount(0)
  await expect(listen.getByRole('button', { name: 'Choose a recording' })).toBeVisible()
})

test('processing that the browser leaves on is told', async ({ page }) => {
  await page.addInitScript(() => {
    MediaStreamTrack.prototype.getSettings = () => ({ echoCancellation: false, noiseSuppression: true })
  })
  const listen = await openPanel(page)
  await listen.getByRole('button', { name: 'Listen now' }).click()
  await expect(listen).toContainText('Still on, though asked off: noise suppression.')
  await expect(listen).toContainText('does not say whether these are off: automatic gain.')
})

test('a recording is heard, counts for the odds, and is taken back', async ({ page }) => {
  const listen = await openPanel(page)
  const odds = page.locator('.fault-odds')
  const before = await odds.innerText()
  await expect(listen.getByRole('button', { name: 'Use it for the odds' })).toBeDisabled()
  await give(page, 'hum.wav', wav(oddHum(MAINS), 8))
  await expect(listen.locator('.listen-mains')).toContainText('Mains 50.02 Hz ± 0.01 Hz')
  await expect(best(page)).toHaveAttribute('data-family', 'mains-odd')
  await listen.locator('.listen-lines summary').click()
  // Of 0.05 and 0.02: 20 lg 0.4.
  await expect(listen.locator('.listen-lines tbody tr').nth(1)).toContainText(/3150\.06−8\.0/)
  await listen.getByRole('button', { name: 'Use it for the odds' }).click()
  await expect(listen).toContainText('Counts for the odds: Mains, odd harmonics; Mains 50.02 Hz')
  await expect.poll(() => odds.innerText()).not.toBe(before)
  // It counts while the panel is closed too.
  await listen.locator('summary').first().click()
  await listen.getByRole('button', { name: 'Take it back' }).click()
  await expect(listen).not.toContainText('Counts for the odds')
  await expect.poll(() => odds.innerText()).toBe(before)
  // No sound is in a link.
  expect(new URL(page.url()).hash).toBe(FAULT)
})

test('what the likely causes would bring on this line stands beside what is heard', async ({ page }) => {
  const listen = await openPanel(page, 'served', `${FAULT}/source=output&power=earthed&box=none`)
  await give(page, 'hum.wav', wav(oddHum(50), 4))
  const key = listen.locator('.listen-key [data-cause=loop]')
  await expect(key).toContainText('Predicted here: A loop through two earths')
  await listen.locator('.listen-lines summary').click()
  await expect(listen.locator('.listen-lines th').nth(3)).toContainText('○ A loop through two earths')
  // The first harmonic is what the others are told against.
  await expect(listen.locator('.listen-lines tbody tr').first().locator('td').nth(2)).toHaveText('0.0')
  // Nothing is predicted where no mains are heard.
  await give(page, 'whine.wav', wav([{ hz: 8200, level: 0.05 }], 2))
  await expect(key).toContainText('once mains hum is heard')
})

test('a sound that is not what was chosen is told, and the search starts again with what it is like', async ({
  page,
}) => {
  const [chosen, did] = ['#1/fault/hum.one/lead_length=9_m', 'did=turn:same,volume:same']
  const listen = await openPanel(page, 'served', `${chosen}?${did}`)
  const unlike = listen.locator('.listen-unlike')
  await give(page, 'hum.wav', wav(oddHum(MAINS), 4))
  await expect(best(page)).toHaveAttribute('data-family', 'mains-odd')
  await expect(unlike).toHaveCount(0)
  await give(page, 'whine.wav', wav([{ hz: 8200, level: 0.05 }], 2))
  await expect(unlike).toContainText('You chose hum; this sounds like a whine.')
  await expect(unlike.getByRole('button')).toHaveText('Start again with Whine')
  await give(page, 'telephone.wav', wav(bursts(), 4))
  await expect(unlike).toContainText('You chose hum; this sounds like a telephone.')
  await expect(listen.getByRole('status').filter({ hasText: 'You chose hum' })).toHaveCount(1)
  await unlike.getByRole('button', { name: 'Start again with Radio, phone' }).click()
  // A radio has no test that turns the guitar; the line and the other answer stay.
  await expect(page).toHaveURL(/#1\/fault\/radio\.one\/lead_length=9_m\?did=volume:same$/)
  await expect(unlike).toHaveCount(0)
  await expect(best(page)).toHaveAttribute('data-family', 'telephone')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect.poll(() => new URL(page.url()).hash).toBe(`${chosen}?${did}`)
  await expect(unlike).toHaveCount(1)
  await page.goBack()
  await expect(page).toHaveURL(/radio\.one/)
})

test('the report says that a sound was counted', async ({ page, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  await page.addInitScript(() => (window.print = () => dispatchEvent(new Event('beforeprint'))))
  const listen = await openPanel(page)
  const said = 'A sound was counted in these odds. It is not in the link.'
  const copied = async () => {
    await page.getByRole('button', { name: 'Copy as text' }).click()
    return page.evaluate(() => navigator.clipboard.readText())
  }
  await give(page, 'hum.wav', wav(oddHum(MAINS), 4))
  await expect(listen.locator('.listen-mains')).toBeVisible()
  expect(await copied()).not.toContain(said)
  await listen.getByRole('button', { name: 'Use it for the odds' }).click()
  await expect.poll(copied).toContain(said)
  await page.getByRole('button', { name: 'Print', exact: true }).click()
  await expect(page.locator('#paper .fault-paper')).toContainText(said)
  await page.evaluate(() => dispatchEvent(new Event('afterprint')))
  await listen.getByRole('button', { name: 'Take it back' }).click()
  await expect.poll(copied).not.toContain(said)
})

test('a prediction that is not the likeliest cause’s says so', async ({ page }) => {
  // The likeliest by far is a dimmer.
  const listen = await openPanel(
    page,
    'served',
    '#1/fault/buzz.one/source=output&power=earthed&box=none?odds=dimmer:20',
  )
  await give(page, 'hum.wav', wav(oddHum(50), 4))
  const [unknown, shown] = [listen.locator('.listen-unknown'), listen.locator('.listen-key [data-cause]')]
  await expect(unknown).toContainText('No model says what the likeliest cause sounds like')
  await expect(shown).toHaveCount(1)
  await expect(shown).toContainText(/^Shown: .* \(\d+\s%\)$/)
  await give(page, 'whine.wav', wav([{ hz: 8200, level: 0.05 }], 2))
  await expect(unknown).toHaveCount(0)
  await expect(shown).toHaveCount(0)
})

test('what is read out is never that of an older recording', async ({ page }) => {
  const listen = await openPanel(page)
  const spoken = listen.locator('.listen-panel > .unseen[role=status]')
  await give(page, 'silence.wav', silence(3))
  await expect(spoken).toContainText('Silence')
  await give(page, 'empty.wav', Buffer.alloc(0))
  await expect(listen.getByRole('alert')).toContainText('empty.wav is empty')
  expect(await spoken.innerText()).toBe('')
  await give(page, 'short.wav', wav(oddHum(MAINS), 0.1))
  await expect(listen.locator('.listen-said')).toContainText('Too short')
  await expect(spoken).toContainText('Too short')
  await give(page, 'whine.wav', wav([{ hz: 8200, level: 0.05 }], 2))
  await expect(listen.locator('.listen-said')).toContainText('Whine at 8.2 kHz')
  expect(await spoken.innerText()).not.toContain('Too short')
  await expect(spoken).toContainText('Whine')
})

test('a level that no recording has is no number', async ({ page }) => {
  const listen = await openPanel(page)
  const loud = wav([], 1)
  const samples = new Float32Array(24_000).map((_, at) => 1e30 * Math.sin(at))
  loud.writeUInt16LE(3, 20)
  loud.writeUInt16LE(32, 34)
  loud.writeUInt16LE(4, 32)
  loud.writeUInt32LE(4 * 48_000, 28)
  Buffer.from(samples.buffer).copy(loud, 44)
  await give(page, 'loud.wav', loud)
  await expect(listen.locator('.listen-said')).toContainText('Level over +20 dBFS: not a usual recording')
})

test('a recording that is dropped on the page is heard', async ({ page }) => {
  const listen = await openPanel(page)
  const bytes = [...wav(oddHum(60), 2, 1e-4, 8000)]
  const files = await page.evaluateHandle(bytes => {
    const files = new DataTransfer()
    files.items.add(new File([new Uint8Array(bytes)], 'dropped.wav'))
    return files
  }, bytes)
  await page.dispatchEvent('.listen', 'drop', { dataTransfer: files })
  await expect(listen).toContainText('dropped.wav, 2.0 s.')
  await expect(listen.locator('.listen-mains')).toContainText('Mains 60.00 Hz')
})

test('what is no good is told, and the next recording is heard all the same', async ({ page }) => {
  const listen = await openPanel(page)
  const whole = wav(oddHum(MAINS), 6)
  await give(page, 'text.wav', Buffer.from('Doors are at eight. Bring the other lead.'))
  await expect(listen.getByRole('alert')).toContainText('text.wav is no recording')
  await give(page, 'empty.wav', Buffer.alloc(0))
  await expect(listen.getByRole('alert')).toContainText('empty.wav is empty')
  await give(page, 'head.wav', whole.subarray(0, 44))
  await expect(listen.getByRole('alert')).toContainText('head.wav is empty')
  await give(page, 'silence.wav', silence(3))
  await expect(listen).toContainText('Silence')
  await expect(listen.getByRole('button', { name: 'Use it for the odds' })).toBeDisabled()
  await give(page, 'short.wav', wav(oddHum(MAINS), 0.1))
  await expect(listen).toContainText('Too short')
  await give(page, 'fast.wav', wav([{ hz: 8200, level: 0.05 }], 1, 1e-4, 192_000))
  await expect(listen).toContainText('Whine at 8.2 kHz')
  await give(page, 'cut.wav', whole.subarray(0, whole.length / 2))
  await expect(listen).toContainText('The file ends early')
  await expect(listen.locator('.listen-mains')).toContainText('Mains 50.02 Hz')
})

test('of a long recording the reader says which part', async ({ page }) => {
  const listen = await openPanel(page)
  const [rate, minutes] = [8000, 20]
  const long = silence(60 * minutes, rate)
  const part = wav(oddHum(60), 150, 1e-4, rate).subarray(44)
  part.copy(long, 44 + 2 * rate * 900)
  await give(page, 'long.wav', long)
  await expect(listen).toContainText('long.wav is 1200.0 s long')
  await expect(listen.locator('.listen-heard')).toHaveCount(0)
  const from = listen.getByLabel('From second')
  await from.fill('5000')
  await expect(listen.getByRole('button', { name: 'Listen from there' })).toBeDisabled()
  await from.fill('100')
  await listen.getByRole('button', { name: 'Listen from there' }).click()
  await expect(listen).toContainText('Silence')
  await from.fill('910')
  await from.press('Enter')
  await expect(listen.locator('.listen-mains')).toContainText('Mains 60.00 Hz')
})

test('what came in is kept as a file only when that is asked for', async ({ page }) => {
  const listen = await openPanel(page)
  await listen.getByRole('button', { name: 'Listen now' }).click()
  await expect(listen.locator('.listen-mains')).toBeVisible()
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    listen.getByRole('button', { name: 'Keep the last 10 s' }).click(),
  ])
  expect(download.suggestedFilename()).toMatch(/^stageohm-heard-.*\.wav$/)
  await listen.getByRole('button', { name: 'Stop' }).click()
  // What was kept is what was played.
  await give(page, 'kept.wav', readFileSync(await download.path()))
  await expect(listen).toContainText('kept.wav')
  await expect(best(page)).toHaveAttribute('data-family', 'mains-odd')
})

test('everyone can use it on a phone, in every theme, by keys alone', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 740 })
  await open(page, FAULT)
  for (const theme of ['light', 'dark', 'stage']) {
    await setting(page, theme)
    await page.getByRole('button', { name: 'Settings' }).click()
    await panel(page).locator('summary').first().focus()
    await page.keyboard.press('Enter')
    await panel(page).getByRole('button', { name: 'Listen now' }).focus()
    await page.keyboard.press('Enter')
    // The focus goes where the next act is.
    await expect(panel(page).getByRole('button', { name: 'Stop' })).toBeFocused()
    await expect(panel(page).locator('.listen-mains')).toBeVisible()
    await expect(panel(page).getByRole('status').filter({ hasText: 'Mains, odd harmonics' })).toHaveCount(1)
    await page.keyboard.press('Enter')
    await expect(panel(page).getByRole('button', { name: 'Listen now' })).toBeFocused()
    await panel(page).locator('.listen-lines summary').click()
    const { violations } = await new AxeBuilder({ page })
      .include('.listen')
      .options({ rules: { 'target-size': { enabled: true } } })
      .analyze()
    expect(violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html}`))).toEqual([])
    const { scroll, client } = await page.evaluate(() => {
      const { scrollWidth: scroll, clientWidth: client } = document.documentElement
      return { scroll, client }
    })
    expect(scroll).toBe(client)
    await panel(page).locator('summary').first().click()
  }
})

test('a lesson has no panel', async ({ page }) => {
  await open(page, `${FAULT}?lesson`)
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
  await expect(panel(page)).toHaveCount(0)
})
