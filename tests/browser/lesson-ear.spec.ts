// A step by ear: nothing is heard before it is pressed, X is named against chance, and who does
// not listen answers by eye. Sound is stood in for: what the page asks of it is written down.

import AxeBuilder from '@axe-core/playwright'
import { readFileSync } from 'node:fs'
import type { Page } from '@playwright/test'
import type { EarHeard, Lesson, LessonResponse } from '../../www/generated/contract'
import { lesson } from './engine'
import { expect, open, test } from './page'

const SEED = 1
const file = JSON.parse(readFileSync(new URL('../../crate/lessons/by-ear.json', import.meta.url), 'utf8')) as Lesson
const checks = lesson({ lesson: file, seed: SEED }).steps
/** The lead of three metres or of fifteen, and the copper that nobody hears. */
const LEAD = 0
const COPPER = 3

const stepOf = (at: number) => `#1/lesson/by-ear?seed=${SEED}&step=${at + 1}`

function keyOf(at: number) {
  const key = checks[at]?.key
  if (!key) throw new Error(`step ${at} has no key`)
  return key
}

function marked(at: number, response: Partial<LessonResponse>) {
  const one = lesson({
    lesson: file,
    seed: SEED,
    responses: file.steps.map((_, step) => (step === at ? response : null)),
  }).marked[at]
  if (!one) throw new Error('not marked')
  return one
}

/** Puts a sound in the place of the page's own that writes down what it is asked. */
async function standIn(page: Page, fails = false): Promise<void> {
  await page.route(/stand-in\.js$/, route => route.fulfill({ contentType: 'text/javascript', body: '' }))
  await page.route(/stand-in\.wasm$/, route =>
    // The least module that there is: its magic number and its version.
    route.fulfill({ contentType: 'application/wasm', body: Buffer.from([0, 97, 115, 109, 1, 0, 0, 0]) }),
  )
  await page.addInitScript(fails => {
    const calls: unknown[][] = []
    class Hearing {
      playing = false
      constructor() {
        if (fails) throw 'hear-none'
        calls.push(['made'])
      }
      source(kind: string) {
        calls.push(['source', kind])
      }
      sides(a: { response: { db: number[] } | null }, b: { response: { db: number[] } | null }, ways: object) {
        calls.push(['sides', a.response?.db.length ?? 0, b.response?.db.length ?? 0, ways])
      }
      play(side: string) {
        this.playing = true
        calls.push(['play', side])
      }
      switchTo(side: string) {
        calls.push(['switch', side])
      }
      stop() {
        this.playing = false
        calls.push(['stop'])
      }
      volume(db: number) {
        calls.push(['volume', db])
      }
      onStopped(told: (why: string) => void) {
        Object.assign(globalThis, { tellStopped: told })
      }
      free() {
        this.playing = false
        calls.push(['free'])
      }
    }
    Object.assign(globalThis, { heardCalls: calls, hearGlue: () => ({ initSync: () => undefined, Hearing }) })
    document.addEventListener('DOMContentLoaded', () => {
      for (const [id, href] of [
        ['hear-wasm', './stand-in.wasm'],
        ['hear-glue', './stand-in.js'],
      ] as const) {
        document.getElementById(id)?.remove()
        document.head.append(Object.assign(document.createElement('link'), { id, rel: 'later', href }))
      }
    })
  }, fails)
}

const calls = (page: Page) =>
  page.evaluate(() => (globalThis as unknown as { heardCalls: [string, ...unknown[]][] }).heardCalls)
const count = async (page: Page, name: string) => (await calls(page)).filter(([call]) => call === name).length
const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click()

const NAMES = { a: 'X is A', b: 'X is B', skip: 'I hear no difference' } as const

/** Listens to X and names it, trial by trial. */
async function nameAll(page: Page, heard: readonly EarHeard[]): Promise<void> {
  for (const one of heard) {
    await press(page, 'X')
    await press(page, NAMES[one])
  }
}

async function commit(page: Page): Promise<void> {
  await page.getByRole('radio', { name: 'fairly sure' }).check()
  await press(page, 'Commit')
}

test('nothing sounds before it is pressed; A, B and X are one switch, and Stop and Escape stop it', async ({
  page,
}) => {
  await standIn(page)
  await open(page, stepOf(LEAD))
  await expect(page.locator('.lesson-ear-caution')).toContainText('never the PA')
  await expect(page.locator('[data-sounding]')).toHaveAttribute('data-sounding', 'silent')
  expect(await calls(page)).toEqual([])
  await press(page, 'A')
  await expect(page.locator('[data-sounding]')).toHaveText('You hear A.')
  const ways = { matched: true, hum: true, noise: true, clipping: true }
  const [made, source, sides, volume, play] = await calls(page)
  expect([made, source, volume, play]).toEqual([['made'], ['source', 'guitar'], ['volume', 0], ['play', 'a']])
  expect(sides?.[1]).toBeGreaterThan(100)
  expect(sides?.[2]).toBe(sides?.[1])
  expect(sides?.[3]).toEqual(ways)
  await press(page, 'B')
  await page.keyboard.press('x')
  await expect(page.locator('[data-sounding]')).toHaveText('You hear X.')
  const [x] = keyOf(LEAD).heard
  expect((await calls(page)).slice(5)).toEqual([
    ['switch', 'b'],
    ['switch', x],
  ])
  await page.keyboard.press('Escape')
  await expect(page.locator('[data-sounding]')).toHaveText('Silent.')
  expect(await count(page, 'stop')).toBe(1)
  await press(page, 'X')
  await expect(page.locator('[data-sounding]')).toHaveText('You hear X.')
  await press(page, 'Stop')
  expect(await count(page, 'stop')).toBe(2)
  // One sound is made, and given back with the step.
  await press(page, 'Skip')
  await expect.poll(() => count(page, 'free')).toBe(1)
  expect(await count(page, 'made')).toBe(1)
})

const WHYS: readonly (readonly [string, (page: Page) => Promise<unknown>, string])[] = [
  [
    'a page out of sight',
    page =>
      page.evaluate(() => {
        Object.defineProperty(document, 'hidden', { configurable: true, get: () => true })
        document.dispatchEvent(new Event('visibilitychange'))
      }),
    'Silent: the page was out of sight.',
  ],
  [
    'another tab that plays',
    page =>
      page.evaluate(() => {
        const channel = new BroadcastChannel('stageohm-sound')
        channel.postMessage(null)
      }),
    'Silent: another window or tab of this page began to play.',
  ],
  [
    'a browser that holds it back',
    page =>
      page.evaluate(() => (globalThis as unknown as { tellStopped: (why: string) => void }).tellStopped('hear-held')),
    'Silent: the browser holds the sound back. Press A, B or X again',
  ],
]

for (const [what, end, told] of WHYS) {
  test(`${what} ends it, and is told`, async ({ page }) => {
    await standIn(page)
    await open(page, stepOf(LEAD))
    await press(page, 'A')
    const status = page.locator('[data-sounding]')
    await expect(status).toHaveText('You hear A.')
    await end(page)
    await expect(status).toContainText(told)
    await press(page, 'B')
    await expect(status).toHaveText('You hear B.')
  })
}

test('the volume says its decibels, and only goes down', async ({ page }) => {
  await standIn(page)
  await open(page, stepOf(LEAD))
  await press(page, 'A')
  const volume = page.getByRole('slider', { name: 'Volume' })
  await volume.fill('-12')
  await expect(volume).toHaveAttribute('aria-valuetext', /^−12\.0\sdB$/)
  expect((await calls(page)).at(-1)).toEqual(['volume', -12])
  await expect(volume).toHaveAttribute('max', '0')
})

for (const [way, stop] of [
  ['Escape', (page: Page) => page.keyboard.press('Escape')],
  ['Stop', (page: Page) => press(page, 'Stop')],
] as const) {
  test(`${way} ends a sound that is still on its way`, async ({ page }) => {
    await standIn(page)
    let give = () => {}
    const given = new Promise<void>(done => (give = done))
    await page.route(/stand-in\.wasm$/, async route => {
      await given
      await route.fallback()
    })
    await open(page, stepOf(LEAD))
    await press(page, 'A')
    const sounding = page.locator('[data-sounding]')
    await expect(sounding).toHaveAttribute('data-sounding', 'opening')
    await stop(page)
    await expect(sounding).toHaveText('Silent.')
    give()
    await press(page, 'B')
    await expect(sounding).toHaveText('You hear B.')
    expect((await calls(page)).filter(([call]) => call === 'play')).toEqual([['play', 'b']])
  })
}

test('X is another one in each trial, and stops with it', async ({ page }) => {
  await standIn(page)
  await open(page, stepOf(LEAD))
  const played = []
  for (const is of keyOf(LEAD).heard) {
    await press(page, 'X')
    await expect(page.locator('[data-sounding]')).toHaveText('You hear X.')
    played.push((await calls(page)).filter(([call]) => call === 'play').at(-1)?.[1])
    await nameAll(page, [is])
    await expect(page.locator('[data-sounding]')).toHaveText('Silent.')
  }
  expect(played).toEqual(keyOf(LEAD).heard)
  await expect(page.locator('.lesson-ear-trial')).toBeFocused()
  await expect(page.getByRole('button', { name: 'X', exact: true })).toBeDisabled()
})

test('nothing is named in a trial before its X was heard', async ({ page }) => {
  await standIn(page)
  await open(page, stepOf(LEAD))
  const names = Object.values(NAMES).map(name => page.getByRole('button', { name, exact: true }))
  const refused = async (trial: string) => {
    await expect(page.locator('.lesson-ear-trial')).toHaveText(`Trial ${trial} of 8: listen to X first, then name it.`)
    for (const name of names) {
      await expect(name).toBeDisabled()
      await expect(name).toHaveAccessibleDescription(/listen to X first/)
      await name.focus()
      await page.keyboard.press('Enter')
    }
    await expect(page.locator('.lesson-ear-trial')).toContainText(`Trial ${trial} of 8`)
  }
  await refused('1')
  await press(page, 'A')
  await press(page, 'B')
  await refused('1')
  await press(page, 'X')
  await expect(page.locator('.lesson-ear-trial')).toHaveText('Trial 1 of 8: which one is X?')
  // It is compared with A before it is named.
  await press(page, 'A')
  await press(page, 'X is A')
  await refused('2')
  // The keys are still there, as the focus is.
  await page.keyboard.press('x')
  await expect(page.locator('.lesson-ear-trial')).toHaveText('Trial 2 of 8: which one is X?')
  await page.evaluate(() => (globalThis as unknown as { tellStopped: (why: string) => void }).tellStopped('hear-held'))
  await refused('2')
})

test('what is named is worth what the core says, with the chance of guessing it', async ({ page }) => {
  const heard = keyOf(LEAD).heard.map((one, at) => (at === 0 ? (one === 'a' ? 'b' : 'a') : one)) satisfies EarHeard[]
  const { points, of, findings, rows } = marked(LEAD, { heard })
  expect(points).toBe(of)
  await standIn(page)
  await open(page, stepOf(LEAD))
  await commit(page)
  await expect(page.getByRole('alert')).toContainText('Name X in every trial')
  await nameAll(page, heard.slice(0, 3))
  await press(page, 'Undo')
  await nameAll(page, heard.slice(2))
  await commit(page)
  const judged = page.locator('.lesson-judged')
  await expect(judged.locator('h3').first()).toContainText(`Points: ${points} of ${of}`)
  await expect(judged.locator('.lesson-findings li')).toHaveText(findings.map(({ text }) => text))
  await expect(judged).toContainText('Guessing does as well once in 28 runs')
  await expect(judged.locator('[data-row="key"] dd')).toHaveText(keyOf(LEAD).text)
  const differences = judged.locator('.lesson-differences')
  await expect(differences.locator('tbody tr')).toHaveCount(rows.length)
  // A sentence stands under one head, and not under that of A.
  await expect(differences.locator('thead th')).toHaveText(['Reading', 'How A and B differ'])
  await expect(differences.locator('tbody th').first()).toContainText('loudness matched')
  for (const id of ['one', 'other']) await expect(judged.locator(`path[data-trace="${id}"]`)).toBeAttached()
})

test('before it is committed, nothing on the page tells X', async ({ page }) => {
  await standIn(page)
  const xOf = (seed: number) => lesson({ lesson: file, seed }).steps[LEAD]?.key?.heard[0]
  const seeds = Array.from({ length: 100 }, (_, before) => before + 1)
  const shown: string[] = []
  for (const x of ['a', 'b']) {
    const seed = seeds.find(seed => xOf(seed) === x)
    await open(page, `#1/lesson/by-ear?seed=${seed}&step=${LEAD + 1}`)
    await page.reload()
    await press(page, 'X')
    await expect(page.locator('[data-sounding]')).toHaveText('You hear X.')
    expect(await calls(page)).toContainEqual(['play', x])
    await expect(page.locator('.lesson-ear-switch [aria-pressed="true"]')).toHaveText(['X'])
    const html = await page.locator('.lesson-ear-panel').evaluate(panel => panel.outerHTML)
    shown.push(html.replace(/ (id|for|aria-describedby)="[^"]*"/g, ''))
  }
  expect(shown[0]).toBe(shown[1])
})

test('who hears no difference where there is none has full points', async ({ page }) => {
  const heard = Array.from({ length: 8 }, () => 'skip') satisfies EarHeard[]
  const { points, of } = marked(COPPER, { heard })
  expect(points).toBe(of)
  await standIn(page)
  await open(page, stepOf(COPPER))
  await nameAll(page, heard)
  await commit(page)
  await expect(page.locator('.lesson-judged')).toContainText('There is nothing to hear here')
  await expect(page.locator('.lesson-judged h3').first()).toContainText(`Points: ${points} of ${of}`)
})

test('where there is no sound it is said, and by eye it is worth as much', async ({ page }) => {
  const { seen } = keyOf(LEAD)
  const { points, of } = marked(LEAD, { seen })
  expect(points).toBe(of)
  await standIn(page, true)
  await open(page, stepOf(LEAD))
  await press(page, 'A')
  await expect(page.locator('[data-sounding]')).toContainText('Answer by eye instead')
  await press(page, 'By eye instead')
  const plot = page.locator('.lesson-ear .lesson-plot')
  await expect(plot.locator('path[data-trace="one"]')).toBeAttached()
  await expect(plot).toContainText('Rig 1')
  await page.getByRole('radio', { name: seen === 'first' ? 'Rig 1 is A' : 'Rig 2 is A' }).check()
  await commit(page)
  await expect(page.locator('.lesson-judged h3').first()).toContainText(`Points: ${points} of ${of}`)
})

test('what is answered stays over a reload', async ({ page }) => {
  await standIn(page)
  await open(page, stepOf(LEAD))
  await nameAll(page, keyOf(LEAD).heard)
  await commit(page)
  await expect(page.locator('.lesson-judged')).toBeVisible()
  await page.reload()
  await expect(page.locator('.lesson-judged')).toContainText('once in 256 runs')
})

for (const width of [360, 1440]) {
  test(`${width} px: all of it can be reached, and is large enough for a thumb`, async ({ page }) => {
    await page.setViewportSize({ width, height: 740 })
    await standIn(page)
    await open(page, stepOf(LEAD))
    await expect(page.locator('.lesson-ear-switch')).toBeVisible()
    const { violations } = await new AxeBuilder({ page }).analyze()
    expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
    for (const button of await page.locator('.lesson-ear button').all()) {
      expect((await button.boundingBox())?.height).toBeGreaterThanOrEqual(44)
    }
  })
}

test('on paper two curves without names ask the eye, and the answer sheet tells which', async ({ page }) => {
  await open(page, `#1/lesson/by-ear?seed=${SEED}&view=sheet`)
  const sheet = page.locator('.lesson-sheet-step[data-step="1"]')
  await expect(sheet).toContainText('Which one is A?')
  await expect(sheet.locator('.lesson-silent-here')).toContainText('this goes by eye: nothing is played')
  await expect(sheet.locator('path[data-trace]')).toHaveCount(2)
  await open(page, `#1/lesson/by-ear?seed=${SEED}&view=answers`)
  await expect(page.locator('.lesson-sheet-step[data-step="1"] .lesson-key')).toContainText(
    keyOf(LEAD).seen === 'first' ? 'Rig 1 is A' : 'Rig 2 is A',
  )
  await expect(page.locator('.lesson-sheet-step[data-step="4"] .lesson-key')).toContainText('cannot be told apart')
})

test('on a wall the curves stay once it is revealed, with A and B at them', async ({ page }) => {
  await open(page, `#1/lesson/by-ear?seed=${SEED}&step=${LEAD + 1}&view=class`)
  const slide = page.locator('.lesson-slide')
  await expect(slide.locator('.lesson-silent-here')).toContainText('this goes by eye: nothing is played')
  await expect(slide.locator('path[data-trace]')).toHaveCount(2)
  await expect(slide).not.toContainText('is rig 1')
  await page.keyboard.press(' ')
  const [first, second] = keyOf(LEAD).seen === 'first' ? ['A', 'B'] : ['B', 'A']
  await expect(slide.locator('.lesson-key')).toContainText(`Rig ${first === 'A' ? 1 : 2} is A`)
  await expect(slide.locator('path[data-trace]')).toHaveCount(2)
  await expect(slide.locator('.lesson-axes')).toContainText(`${first} is rig 1, solid`)
  await expect(slide.locator('.lesson-axes')).toContainText(`${second} is rig 2, dashed`)
  await expect(slide.locator('.lesson-because')).toBeVisible()
})

test('on a wall readings of both rigs are told', async ({ page }) => {
  await open(page, `#1/lesson/by-ear?seed=${SEED}&step=3&view=class`)
  const cells = page.locator('.lesson-slide .lesson-measures tbody td')
  await expect(cells).toHaveCount(2)
  for (const cell of await cells.all()) await expect(cell).toBeVisible()
})
