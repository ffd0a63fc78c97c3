// What follows an input, and in which frame: first what is read first, then all else.

import { readFileSync } from 'node:fs'
import type { Page } from '@playwright/test'
import { answer, headline, typed } from './engine'
import { curves, expect, expectAnswer, input, open, reading, test } from './page'

const BEFORE = answer('pickup')
const AFTER = answer('pickup', { load_r: '47k' })

/** What is on the screen at an input and in each of the frames after it. */
interface Frame {
  readonly field: string
  readonly headline: string
  readonly further: string
  readonly plot: string
}

const LEAD = 'load_loss'
const LATER = 'level_at'

/** Puts a text in as one input, and looks at the screen in the frames that follow. */
function framesAfter(page: Page, text: string): Promise<Frame[]> {
  return page.evaluate(
    async ([text, lead, later]) => {
      const typedIn = document.querySelector<HTMLInputElement>('[data-field="load_r"] input[type=text]')
      const textOf = (where: string) => document.querySelector(where)?.textContent ?? ''
      const look = () => ({
        field: textOf('[data-field="load_r"] .note'),
        headline: textOf(`.answer [data-reading="${lead}"] bdi`),
        further: textOf(`.further [data-reading="${later}"] bdi`),
        plot: document.querySelector('path.curve[data-trace="curve"]')?.getAttribute('d') ?? '',
      })
      if (typedIn === null) throw new Error('no field')
      const frames = [look()]
      typedIn.value = text
      typedIn.dispatchEvent(new InputEvent('input', { bubbles: true }))
      while (frames.length < 4) {
        await new Promise(requestAnimationFrame)
        frames.push(look())
      }
      return frames
    },
    [text, LEAD, LATER] as const,
  )
}

/** A screen on which nothing waits for being scrolled to. */
async function openWhole(page: Page, hash: string): Promise<void> {
  await page.setViewportSize({ width: 1280, height: 4000 })
  await open(page, hash)
  await expectAnswer(page, BEFORE)
  await expect(page.locator(`.further [data-reading="${LATER}"] bdi`)).toBeVisible()
}

function text({ report }: typeof AFTER, id: string): string {
  return [...(report?.headline ?? []), ...(report?.further ?? [])].find(reading => reading.id === id)?.text ?? ''
}

test('the headline follows in the first frame, the plot and all else in the next', async ({ page }) => {
  await openWhole(page, '#1/pickup')
  const [typedAt, first, next, last] = await framesAfter(page, '47k')
  const [was, is] = [BEFORE, AFTER].map(answer => ({ lead: text(answer, LEAD), later: text(answer, LATER) }))
  expect([typedAt?.headline, first?.headline]).toEqual([was?.lead, is?.lead])
  expect([first?.further, next?.further]).toEqual([was?.later, is?.later])
  expect(first?.plot).toBe(typedAt?.plot)
  expect(next?.plot).not.toBe(typedAt?.plot)
  expect(last).toEqual(next)
})

test('whatever is typed fast, all of the screen is that of the last key', async ({ page }) => {
  await openWhole(page, '#1/pickup')
  await input(page, 'load_r').focus()
  for (const text of ['10k', '1M', '220', '47k']) {
    await input(page, 'load_r').selectText()
    await page.keyboard.type(text)
  }
  await expectAnswer(page, AFTER)
  await expect(page.locator(`.further [data-reading="${LATER}"] bdi`)).toHaveText(text(AFTER, LATER))
  const drawn = await curves(page)
  await page.goto('about:blank')
  await openAt(page, '#1/pickup/load_r=47k')
  expect(await curves(page)).toEqual(drawn)
})

async function openAt(page: Page, hash: string): Promise<void> {
  await open(page, hash)
  await expectAnswer(page, AFTER)
}

test('a slider that goes on moving takes the curve along', async ({ page }) => {
  await openWhole(page, '#1/pickup')
  const drawn = await page.evaluate(async () => {
    const slider = document.querySelector<HTMLInputElement>('[data-field="load_r"] input[type=range]')
    if (slider === null) throw new Error('no slider')
    const seen = new Set<string>()
    for (let at = 60; at < 160; at++) {
      slider.value = `${at}`
      slider.dispatchEvent(new InputEvent('input', { bubbles: true }))
      await new Promise(requestAnimationFrame)
      seen.add(document.querySelector('path.curve[data-trace="curve"]')?.getAttribute('d') ?? '')
    }
    return seen.size
  })
  expect(drawn).toBeGreaterThan(5)
})

test('what is taken away between the two frames is that of the newest input', async ({ page }) => {
  await openWhole(page, '#1/pickup')
  const download = page.waitForEvent('download')
  const paper = await page.evaluate(async () => {
    const typedIn = document.querySelector<HTMLInputElement>('[data-field="load_r"] input[type=text]')
    const put = async (text: string) => {
      if (typedIn === null) throw new Error('no field')
      typedIn.value = text
      typedIn.dispatchEvent(new InputEvent('input', { bubbles: true }))
      await new Promise(requestAnimationFrame)
    }
    await put('47k')
    dispatchEvent(new Event('beforeprint'))
    const paper = document.getElementById('paper')?.textContent ?? ''
    dispatchEvent(new Event('afterprint'))
    await put('1M')
    await put('47k')
    document.querySelector<HTMLElement>('.further .tools button')?.click()
    return paper
  })
  for (const id of [LEAD, LATER]) expect(paper).toContain(text(AFTER, id))
  expect(paper).toContain('load_r=47k')
  expect(new URL(page.url()).hash).toBe('#1/pickup/load_r=47k')
  const csv = readFileSync(await (await download).path(), 'utf8')
  for (const { exact, value } of [...headline(AFTER), ...(AFTER.report?.further ?? [])]) {
    if (value !== null) expect(csv).toContain(`,${typed(exact ?? '').replace(' ', ',')},`)
  }
  await expect(reading(page, LEAD)).toHaveText(text(AFTER, LEAD))
})
