// Values at the ends of what is accepted: nothing on the screen is endless or no
// number, in words or in what is drawn.

import type { Page } from '@playwright/test'
import type { Description, NumberDescription } from '../../www/generated/contract'
import { answer, descriptions, typed } from './engine'
import { expect, layOut, open, test, unfold } from './page'

const TINY = 1e-300
const isIn = ({ least, most }: NumberDescription, value: number) => value >= least && value <= most

/** What a field is given, if anything. */
const ENDS: Record<string, (number: NumberDescription) => number | null> = {
  'next to nothing': number => (!number.optional && isIn(number, TINY) ? TINY : null),
  'next to nothing where a default is more': number => (isIn(number, TINY) ? TINY : null),
  'the least': ({ least }) => least,
  'the most': ({ most }) => most,
}

for (const description of descriptions()) {
  test(description.title, async ({ page }) => {
    for (const [end, value] of Object.entries(ENDS)) {
      for (const length of ['', '?in=foot']) {
        await open(page, `${hashOf(description, value)}${length}`)
        await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
        await unfold(page)
        await layOut(page)
        expect(await strange(page), end).toEqual([])
      }
    }
  })
}

/** The address with each number as the engine writes it. */
function hashOf({ id, fields }: Description, end: (number: NumberDescription) => number | null): string {
  const values = fields.flatMap(({ id, number }) => {
    const value = number === null ? null : end(number)
    return value === null ? [] : [[id, value] as const]
  })
  const texts = answer(id, Object.fromEntries(values)).fields
  return `#1/${id}/${values.map(([id]) => `${id}=${encodeURIComponent(typed(texts[id]?.text ?? ''))}`).join('&')}`
}

/** Texts, names and lines of the page that hold what is no number. */
function strange(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const wrong = /infinity|\bnan\b|undefined|\bnull\b/i
    const main = document.querySelector('main')
    const texts = [main?.innerText ?? '']
    for (const element of main?.querySelectorAll('*') ?? []) {
      texts.push(...[...element.attributes].map(({ name, value }) => `${name}=${value}`))
      if (element instanceof SVGTextElement) texts.push(element.textContent ?? '')
      if (element instanceof HTMLInputElement) texts.push(element.value)
    }
    return [...new Set(texts.flatMap(text => text.split('\n')).filter(text => wrong.test(text)))]
  })
}
