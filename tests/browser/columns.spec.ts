// On every desk, what is seen stays in the column it belongs to, and a number
// with its button in its own place among the others.

import type { Page } from '@playwright/test'
import { descriptions } from './engine'
import { expect, layOut, open, test, unfold } from './page'

// From where the page stands in two columns, and the usual screens.
const WIDTHS = [768, 820, 912, 1000, 1024, 1100, 1280, 1366, 1440]

for (const { id, title } of descriptions()) {
  test(title, async ({ page }) => {
    for (const length of ['metre', 'foot']) {
      await open(page, `#1/${id}${length === 'foot' ? '?in=foot' : ''}`)
      await unfold(page)
      await layOut(page)
      for (const width of WIDTHS) {
        await page.setViewportSize({ width, height: 800 })
        // Plots follow the width a frame later.
        await expect.poll(() => standingOut(page), `${width} px, ${length}`).toEqual([])
      }
    }
  })
}

test('a tablet upright has two columns', async ({ page }) => {
  await page.setViewportSize({ width: 820, height: 1180 })
  for (const { id } of descriptions()) {
    await open(page, `#1/${id}`)
    const [question, answer, inputs] = await Promise.all(
      ['.question', '.answer', '.inputs'].map(part => page.locator(part).boundingBox()),
    )
    if (!question || !answer || !inputs) throw new Error(`${id} is not laid out`)
    expect(inputs.x + inputs.width, id).toBeLessThan(answer.x)
    expect(Math.abs(inputs.y - answer.y), id).toBeLessThan(2)
    expect(inputs.y, id).toBeGreaterThanOrEqual(question.y + question.height)
  }
})

/** Texts, pictures and boxes with an edge that are seen outside their column. */
function standingOut(page: Page): Promise<string[]> {
  return page.locator('main').evaluate(main => {
    const COLUMNS = '.reading, .question, .inputs, .answer, .rest, .intro'
    // What scrolls alone may be wider.
    const scrolls = (element: Element | null): boolean =>
      element !== null && (/auto|scroll/.test(getComputedStyle(element).overflowX) || scrolls(element.parentElement))
    const isEdged = (element: Element) => {
      const { borderInlineEndWidth, borderInlineEndColor, backgroundColor } = getComputedStyle(element)
      const seen = (colour: string) => !colour.endsWith(', 0)')
      return (parseFloat(borderInlineEndWidth) > 0 && seen(borderInlineEndColor)) || seen(backgroundColor)
    }
    const out = new Set<string>()
    for (const element of main.querySelectorAll('*')) {
      const column = element.closest(COLUMNS)
      if (column === null || element.closest('svg svg, svg *, math *, .unseen') !== null) continue
      if (!element.checkVisibility() || scrolls(element)) continue
      const boxes =
        element.matches('svg, math, input, select, textarea') || isEdged(element)
          ? [element.getBoundingClientRect()]
          : []
      for (const node of element.childNodes) {
        if (!(node instanceof Text) || node.data.trim() === '') continue
        const range = document.createRange()
        range.selectNodeContents(node)
        boxes.push(...range.getClientRects())
      }
      const { left, right } = column.getBoundingClientRect()
      const beyond = Math.max(...boxes.map(box => Math.max(left - box.left, box.right - right)))
      if (beyond > 0.6) out.add(`${beyond.toFixed(1)} px: ${column.className}: ${element.outerHTML.slice(0, 160)}`)
    }
    return [...out]
  })
}
