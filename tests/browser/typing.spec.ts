// Where a text is typed, neither the browser nor the phone mends it: nF is no word.

import type { Page } from '@playwright/test'
import { expect, open, test, unfold } from './page'

for (const [name, hash, least] of [
  ['the search', '', 1],
  ['fields and the wanted value', '#1/pickup?want=peak:3_kHz&field=lead_length', 10],
] as const) {
  test(name, async ({ page }) => {
    await open(page, hash)
    await unfold(page)
    const inputs = await typed(page)
    expect(inputs.length).toBeGreaterThanOrEqual(least)
    const off = { autocorrect: ['off', false], autocomplete: 'off', autocapitalize: 'none', spellcheck: false }
    for (const { id, ...how } of inputs) expect(how, id).toEqual(off)
  })
}

/** How each text input takes what is typed: the attribute, and what Chromium makes of it. */
function typed(page: Page) {
  return page.locator('input:is([type=text], [type=search])').evaluateAll(inputs =>
    (inputs as (HTMLInputElement & { readonly autocorrect: boolean })[]).map(input => ({
      id: input.id,
      autocorrect: [input.getAttribute('autocorrect'), input.autocorrect],
      autocomplete: input.autocomplete,
      autocapitalize: input.autocapitalize,
      spellcheck: input.spellcheck,
    })),
  )
}
