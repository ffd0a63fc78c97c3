// A language that nobody speaks, made of the English words as they are fetched: every
// letter with an accent, every word 40 % longer. What is seen without accents does not
// stand in the catalogue, and what breaks would break in another language.

import type { Page, Route } from '@playwright/test'
import { beyond, WIDTH } from './beyond'
import { descriptions } from './engine'
import { expect, layOut, test, unfold } from './page'
import { address } from './places'

test.use({ viewport: { width: WIDTH, height: 740 } })

const ACCENTS: Readonly<Record<string, string>> = {
  a: 'á',
  e: 'é',
  i: 'í',
  o: 'ó',
  u: 'ú',
  y: 'ý',
  n: 'ñ',
  s: 'š',
  t: 'ŧ',
}
const LONGER = 0.4

/** A text of the pseudo-language; what stands in braces is left alone. */
function pseudo(text: string): string {
  return text
    .split(/(\{[^{}]*(?:\{[^{}]*\}[^{}]*)*\})/)
    .map((piece, at) =>
      at % 2 === 1
        ? piece
        : piece.replace(/\p{L}{2,}/gu, word => {
            const accented = word.replace(/[a-z]/g, letter => ACCENTS[letter] ?? letter)
            return accented + 'ö'.repeat(Math.round(LONGER * word.length))
          }),
    )
    .join('')
}

/** What is read by the program and not by people. */
const READ = /^(find-idle|find-alike|find-endings|ask-text-no-noun)$/

async function usePseudo(page: Page): Promise<void> {
  await page.route(/-words-[0-9a-f]{16}\.json$/, async route => {
    const file = JSON.parse(await textOf(route))
    const said = (all: Record<string, string>) =>
      Object.fromEntries(Object.entries(all).map(([key, text]) => [key, READ.test(key) ? text : pseudo(text)]))
    const calculators = file.calculators?.map((one: Record<string, string>) => ({ ...said(one), id: one['id'] }))
    await route.fulfill({ json: { ...file, words: said(file.words), ...(calculators && { calculators }) } })
  })
  await page.route(/-words-[0-9a-f]{16}\.ftl$/, async route => {
    const text = await textOf(route)
    await route.fulfill({
      body: text.replace(/^( *\.?[\w-]+ = )(.+)$/gm, (_, key: string, said: string) => key + pseudo(said)),
    })
  })
}

/** What the host has. */
async function textOf(route: Route): Promise<string> {
  return (await fetch(route.request().url())).text()
}

/** Opens a screen with all of it unfolded, whatever it is called. */
async function openPseudo(page: Page, hash: string): Promise<void> {
  await usePseudo(page)
  await page.goto(address + hash)
  await expect(page.locator('#start')).toBeHidden()
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
  await page.locator('.top button[aria-controls]').last().click()
  await expect(page.locator('.settings fieldset').first()).toBeVisible()
  await unfold(page)
  await layOut(page)
}

const screens = [
  '',
  ...descriptions().map(({ id }) => `#1/${id}`),
  ...['#1/look-up/xlr', '#1/look-up/value-level', '#1/look-up/term-ground-loop', '#1/about'],
  ...['#1/fault', '#1/fault/hum.one', '#1/stage', '#1/lesson'],
]

for (const hash of screens) {
  test(`a longer language on ${hash || 'the start page'}`, async ({ page }) => {
    await openPseudo(page, hash)
    expect(await beyond(page)).toEqual([])
    expect(await plainWords(page)).toEqual([])
  })

  test(`from right to left on ${hash || 'the start page'}`, async ({ page }) => {
    await page.addInitScript(() => addEventListener('DOMContentLoaded', () => (document.documentElement.dir = 'rtl')))
    await openPseudo(page, hash)
    expect(await beyond(page)).toEqual([])
    // Formulas, circuits and curves are read from left to right everywhere.
    const turned = await page
      .locator('math, svg:has(text)')
      .evaluateAll(all =>
        all.filter(one => getComputedStyle(one).direction !== 'ltr').map(one => one.outerHTML.slice(0, 120)),
      )
    expect(turned).toEqual([])
  })
}

/** Words that are seen and do not come from the catalogue. */
async function plainWords(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT)
    const seen = new Set<string>()
    // What a formula, a value, a person's own text or another language says.
    const apart = 'math, code, pre, textarea, script, style, noscript, bdi, [lang], [data-own], kbd, svg .value'
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      const parent = node.parentElement
      if (parent === null || parent.closest(apart) !== null || !parent.checkVisibility()) continue
      // Two letters may be a unit; a word has a vowel that would carry an accent.
      for (const [word] of (node.textContent ?? '').matchAll(/(?<![\p{L}\p{N}])[A-Za-z][a-z]{3,}(?![\p{L}\p{N}])/gu)) {
        if (/[aeiouy]/.test(word)) seen.add(word)
      }
    }
    return [...seen]
  })
}
