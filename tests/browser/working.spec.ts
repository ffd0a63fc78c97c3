// The working behind the answer of every calculator, set as mathematics.

import { answer, change, descriptions } from './engine'
import { expect, expectAnswer, input, open, test, unfold } from './page'

for (const description of descriptions()) {
  test(description.title, async ({ page }) => {
    const { field, text, after } = change(description)
    const steps = answer(description.id, { [field]: text }, { working: true }).report?.working ?? []
    await open(page, `#1/${description.id}`)
    await page.getByText('Show the working').click()
    await input(page, field).fill(text)
    await expectAnswer(page, after)
    // What is said in short stands first; the walk through the parts waits until it is asked for.
    const headline = after.report?.headline ?? []
    const simple = headline.flatMap(({ because }) => (because === null ? [] : [because]))
    await expect(page.locator('.simple math')).toHaveCount(simple.length)
    for (const [index, { formula }] of simple.entries()) {
      await expect(page.locator('.simple math').nth(index)).toHaveAttribute('alttext', formula)
    }
    await expect(page.locator('[data-step]')).toHaveCount(steps.filter(({ chain }) => !chain).length)
    await unfold(page)
    await expect(page.locator('[data-step] .result strong')).toHaveText(steps.map(({ result }) => result))
    const formulas = page.locator('[data-step] math')
    await expect(formulas).toHaveCount(2 * steps.length)
    await expect(formulas.first()).toBeVisible()
    // Drawn as mathematics, and not as a row of letters.
    const namespace = await formulas.first().evaluate(element => element.firstElementChild?.namespaceURI)
    expect(namespace).toBe('http://www.w3.org/1998/Math/MathML')

    await page.getByRole('button', { name: 'Show as text' }).click()
    await expect(page.locator('[data-step] pre').first()).toContainText(steps[0]?.formula ?? 'no step')
  })
}

test('a headline says why, with a formula that has the symbols of the fields', async ({ page }) => {
  await page.setViewportSize({ width: 360, height: 740 })
  await open(page, '#1/source-load')
  const [first] = answer('source-load').report?.headline ?? []
  const why = page.locator(`.answer [data-reading="${first?.id}"] .because`)
  await expect(why).toContainText(first?.because?.text ?? 'no reason')
  await expect(why.locator('math')).toHaveAttribute('alttext', first?.because?.formula ?? 'no formula')
  const symbols = await page.locator('.field .symbol').allTextContents()
  const used = await why.locator('msub').allTextContents()
  expect(used.length).toBeGreaterThan(1)
  for (const symbol of used) expect(symbols).toContain(symbol)
})

test('the formula of a headline stays in its card, on small phones too', async ({ page }) => {
  for (const width of [320, 360]) {
    await page.setViewportSize({ width, height: 740 })
    for (const { id } of descriptions()) {
      await open(page, `#1/${id}`)
      await expect(page.locator('.answer [data-reading]').first()).toBeVisible()
      const out = await page.locator('.answer .because math').evaluateAll(formulas =>
        formulas.map(formula => {
          const card = formula.closest('.headline')?.getBoundingClientRect()
          return formula.getBoundingClientRect().right - (card?.right ?? NaN)
        }),
      )
      for (const beyond of out) expect(beyond, `${id}, ${width} px`).toBeLessThanOrEqual(0)
    }
  }
})

test('an index is smaller and lower than what it belongs to, whatever font there is', async ({ page }) => {
  await open(page, '#1/pickup')
  const indices = await page.locator('.because msub').evaluateAll(all =>
    all.map(({ children: [base, index] }) => {
      if (base === undefined || index === undefined) return { size: NaN, lower: NaN }
      const [own, other] = [base, index].map(part => parseFloat(getComputedStyle(part).fontSize))
      const lower = index.getBoundingClientRect().bottom - base.getBoundingClientRect().bottom
      return { size: (other ?? NaN) / (own ?? NaN), lower: lower / (own ?? NaN) }
    }),
  )
  expect(indices.length).toBeGreaterThan(2)
  for (const { size, lower } of indices) {
    expect(size).toBeLessThan(0.76)
    expect(lower).toBeGreaterThan(0.15)
  }
})
