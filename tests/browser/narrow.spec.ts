// No screen scrolls sideways on the narrowest phone, nor with letters twice as
// large, nor in a language that is written from right to left.

import type { Page } from '@playwright/test'
import { descriptions } from './engine'
import { expect, open, test } from './page'
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

  test(`${name}, from right to left`, async ({ page }) => {
    await page.addInitScript(() => addEventListener('DOMContentLoaded', () => (document.documentElement.dir = 'rtl')))
    await openWhole(page, hash)
    await expect(page.locator('html')).toHaveCSS('direction', 'rtl')
    expect(await beyond(page)).toEqual([])
  })
}

test('the answer in short is not cut, and as low as the page makes room for', async ({ page }) => {
  for (const { id } of descriptions()) {
    await open(page, `#1/${id}`)
    await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight))
    const glance = page.locator('.glance')
    await expect(glance).toBeVisible()
    const cut = await glance.evaluate(bar =>
      [bar, ...bar.querySelectorAll('span, strong')]
        .filter(element => getComputedStyle(element).display !== 'inline')
        .filter(({ scrollWidth, clientWidth }) => scrollWidth > clientWidth + 1)
        .map(({ textContent }) => textContent),
    )
    expect(cut, id).toEqual([])
    expect((await glance.boundingBox())?.height, id).toBeLessThanOrEqual(80)
  }
})

test('in landscape the answer is on the screen at once', async ({ page }) => {
  await page.setViewportSize({ width: 740, height: 360 })
  for (const { id } of descriptions()) {
    await open(page, `#1/${id}`)
    // A caution that must be read first comes before the answer.
    await expect(page.locator('.answer :is(.lead bdi, [data-caution])').first()).toBeInViewport()
    expect(await beyond(page)).toEqual([])
    await page.evaluate(() => scrollTo(0, 0))
  }
})

/** What makes the page scroll sideways, or is cut off at its edge. */
async function beyond(page: Page): Promise<string[]> {
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
