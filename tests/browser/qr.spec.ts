// The link as a code, read as a camera would read it.

import jsQr from 'jsqr'
import { PNG } from 'pngjs'
import { expect, open, setting, test } from './page'
import { allForms } from './places'

for (const form of allForms) {
  for (const theme of ['light', 'stage']) {
    test(`leads to this screen, ${form}, ${theme}`, async ({ page }) => {
      const hash = '#1/pickup/load_r=140k&lead_length=6_m/load_r=10k?want=peak:3_kHz&field=lead_length'
      await open(page, hash, form)
      await setting(page, theme)
      await page.getByRole('button', { name: 'QR code' }).click()
      const code = page.getByRole('img', { name: 'QR code of the link' })
      const { data, width, height } = PNG.sync.read(await code.screenshot())
      const read = jsQr(new Uint8ClampedArray(data), width, height)
      expect(read?.data).toBe(page.url())
      expect(read?.data).toContain(hash)
      await expect(page.locator('.qr code')).toHaveText(page.url())
      await expect(page.getByText('Another device needs the file itself')).toHaveCount(form === 'served' ? 0 : 1)
    })
  }
}

test('the code follows what is typed', async ({ page }) => {
  await open(page, '#1/pickup')
  await page.getByRole('button', { name: 'QR code' }).click()
  await page.locator('[data-field="load_r"] input[type=text]').fill('140k')
  await expect(page.locator('.qr code')).toContainText('load_r=140k')
})

test('a link that is too long for a code says so', async ({ page }) => {
  await open(page, `#1/pickup/load_r=${'9'.repeat(3000)}`)
  // Without an answer there is nothing to share yet.
  await page.locator('[data-field="load_r"] input[type=text]').fill('1M')
  await page.locator('[data-field="lead_length"] input[type=text]').fill(`5 m${' '.repeat(3000)}`)
  await page.getByRole('button', { name: 'QR code' }).click()
  await expect(page.locator('.qr')).toContainText('too much for a QR code')
})
