// No screen scrolls sideways on the narrowest phone, nor with letters twice as large.

import type { Page } from '@playwright/test'
import { expect, test } from './page'
import { openWhole, screens } from './screens'

const WIDTH = 360

test.use({ viewport: { width: WIDTH, height: 740 } })

for (const [name, hash] of screens) {
  test(name, async ({ page }) => {
    await openWhole(page, hash)
    expect(await beyond(page)).toEqual([])
  })

  test(`${name}, letters twice as large`, async ({ page }) => {
    const session = await page.context().newCDPSession(page)
    await session.send('Page.setFontSizes', { fontSizes: { standard: 32 } })
    await openWhole(page, hash)
    await expect(page.locator('html')).toHaveCSS('font-size', '32px')
    expect(await beyond(page)).toEqual([])
  })
}

/** What makes the page scroll sideways, or is cut off at its edge. */
async function beyond(page: Page): Promise<string[]> {
  if ((await page.locator('.headline').count()) > 0) {
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
      .filter(element => element.checkVisibility() && element.getBoundingClientRect().right > width + 0.5)
      .filter(element => !scrolls(element))
      .map(element => element.outerHTML.slice(0, 200))
    return scrollWidth > width ? [`scrolls to ${scrollWidth}`, ...out] : out
  }, WIDTH)
}
