// The working behind the answer of every calculator, set as mathematics.

import { answer, change, descriptions } from './engine'
import { expect, expectAnswer, input, open, test } from './page'

for (const description of descriptions()) {
  test(description.title, async ({ page }) => {
    const { field, text, after } = change(description)
    const steps = answer(description.id, { [field]: text }, { working: true }).report?.working ?? []
    await open(page, `#1/${description.id}`)
    await page.getByText('Show the working').click()
    await input(page, field).fill(text)
    await expectAnswer(page, after)
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
