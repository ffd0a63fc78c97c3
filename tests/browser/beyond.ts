// What does not fit on the narrowest phone.

import type { Page } from '@playwright/test'
import { expect } from './page'

export const WIDTH = 360

/** What makes the page scroll sideways, or is cut off at its edge. */
export async function beyond(page: Page): Promise<string[]> {
  if ((await page.locator('.headline').count()) > 0 && !page.url().includes('lesson')) {
    await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight))
    await expect(page.locator('.glance')).toBeVisible()
  }
  return page.evaluate(width => {
    const { scrollWidth } = document.documentElement
    // What scrolls alone may be wider, and so may a text that ends in dots.
    const scrolls = (element: Element | null): boolean => {
      if (element === null) return false
      const { overflowX, textOverflow } = getComputedStyle(element)
      const dotted =
        textOverflow === 'ellipsis' && element.clientWidth > 2 * parseFloat(getComputedStyle(element).fontSize)
      return dotted || /auto|scroll/.test(overflowX) || scrolls(element.parentElement)
    }
    const out = [...document.body.querySelectorAll('*')]
      .filter(element => !(element instanceof SVGElement) || element instanceof SVGSVGElement)
      .filter(
        element =>
          element.checkVisibility() &&
          (({ left, right }) => left < -0.5 || right > width + 0.5)(element.getBoundingClientRect()),
      )
      .filter(element => !scrolls(element))
      .map(element => element.outerHTML.slice(0, 200))
    return scrollWidth > width ? [`scrolls to ${scrollWidth}`, ...out] : out
  }, page.viewportSize()?.width ?? WIDTH)
}
