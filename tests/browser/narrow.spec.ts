// No screen scrolls sideways on the narrowest phone, nor with letters twice as
// large, nor in a language that is written from right to left.

import { beyond, WIDTH } from './beyond'
import { descriptions } from './engine'
import { expect, open, test } from './page'
import { openWhole, screens } from './screens'

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
