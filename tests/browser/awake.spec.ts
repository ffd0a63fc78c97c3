// The screen stays awake while the reader wants it.

import { expect, open, setting, test } from './page'

test('asked for, let go, and asked for again when the page comes back', async ({ page }) => {
  // A browser without a screen has none to keep awake: this one tells what it is asked.
  await page.addInitScript(() => {
    const asked: string[] = []
    Object.assign(window, { asked })
    Object.defineProperty(navigator, 'wakeLock', {
      value: {
        request: (kind: string) => {
          asked.push(kind)
          const lock = { released: false, release: () => Promise.resolve(void (lock.released = true)) }
          addEventListener('hide-now', () => (lock.released = true), { once: true })
          return Promise.resolve(lock)
        },
      },
    })
  })
  const asked = () => page.evaluate(() => (window as unknown as { asked: string[] }).asked)
  const comeBack = () =>
    page.evaluate(() => {
      dispatchEvent(new Event('hide-now'))
      document.dispatchEvent(new Event('visibilitychange'))
    })
  await open(page)
  await comeBack()
  expect(await asked()).toEqual([])
  await setting(page, 'stays awake')
  await expect.poll(asked).toEqual(['screen'])
  await comeBack()
  await expect.poll(asked).toEqual(['screen', 'screen'])

  // Remembered, until the reader lets it go.
  await page.reload()
  await expect.poll(asked).toEqual(['screen'])
  await setting(page, 'may sleep')
  await comeBack()
  expect(await asked()).toEqual(['screen'])
})

test('where it cannot be had, it says why', async ({ page }) => {
  await page.addInitScript(() => Reflect.deleteProperty(Navigator.prototype, 'wakeLock'))
  await open(page)
  await page.getByRole('button', { name: 'Settings' }).click()
  await expect(page.locator('.settings')).toContainText('https')
})
