// The hands and eyes of the tests. Every test that imports `test` from here also
// fails where the page reports an error or asks for anything that is not its own.

import { expect, test as plain, type Locator, type Page, type Request } from '@playwright/test'
import type { Answer } from '../../www/generated/contract'
import { headline } from './engine'
import { address, forms, type Form } from './places'

export { expect }

export const test = plain.extend<{ watched: void }>({
  watched: [
    async ({ context }, use) => {
      const troubles: string[] = []
      const asked: string[] = []
      context.on('weberror', error => troubles.push(error.error().message))
      // Chromium tells of everything that a policy or a missing file keeps it from.
      context.on('console', message => message.type() === 'error' && troubles.push(message.text()))
      context.on('request', request => {
        const url = request.url()
        // Where a test itself goes.
        const gone = request.isNavigationRequest() && isTop(request)
        const served =
          url.startsWith(new URL('/', address).href) && (gone || !request.frame().url().startsWith('file:'))
        if (!gone && !served && !/^(data|blob):/.test(url)) asked.push(url)
      })
      context.on('page', page => page.on('websocket', socket => asked.push(socket.url())))
      await use()
      expect(troubles).toEqual([])
      expect(asked).toEqual([])
    },
    { auto: true },
  ],
})

function isTop(request: Request): boolean {
  try {
    return request.frame().parentFrame() === null
  } catch {
    // A page that was just opened has no frame yet.
    return true
  }
}

/** Opens a screen of the page; the one file without a network. */
export async function open(page: Page, hash = '', form: Form = 'served'): Promise<void> {
  if (form === 'one file') await page.context().setOffline(true)
  await page.goto(forms[form] + hash)
  await expect(page.locator('#start')).toBeHidden()
}

export function field(page: Page, id: string): Locator {
  return page.locator(`[data-field="${id}"]`)
}

/** Where the number of a field is typed. */
export function input(page: Page, id: string): Locator {
  return field(page, id).locator('input[type=text]')
}

export function slider(page: Page, id: string): Locator {
  return field(page, id).locator('input[type=range]')
}

/** The number of a reading of the answer. */
export function reading(page: Page, id: string): Locator {
  return page.locator(`.answer [data-reading="${id}"] bdi`).first()
}

/** The page shows the answer that the native engine gives. */
export async function expectAnswer(page: Page, answer: Answer): Promise<void> {
  for (const { id, text } of headline(answer)) await expect(reading(page, id)).toHaveText(text)
  await expect(page.locator('.answer')).toHaveAttribute('data-stale', 'false')
}

/** The paths of the first plot, for the present values or a held set. */
export function curves(page: Page, set = 0): Promise<string[]> {
  return page
    .locator('figure.plot')
    .first()
    .locator(`path.curve[data-set="${set}"]`)
    .evaluateAll(paths => paths.map(path => path.getAttribute('d') ?? ''))
}

/** Opens everything that is folded away. */
export async function unfold(page: Page): Promise<void> {
  const closed = page.locator('main details:not([open]) > summary')
  while ((await closed.count()) > 0) await closed.first().click()
}

/** Lays out what the page leaves until it is scrolled to, so that it can be measured. */
export async function layOut(page: Page): Promise<void> {
  await page.locator('main').evaluate(main => {
    for (const element of main.querySelectorAll<HTMLElement>('*')) {
      if (getComputedStyle(element).contentVisibility === 'auto') element.style.contentVisibility = 'visible'
    }
  })
}

/** Chooses one of the settings. */
export async function setting(page: Page, name: string): Promise<void> {
  const settings = page.getByRole('button', { name: 'Settings' })
  if ((await settings.getAttribute('aria-expanded')) === 'false') await settings.click()
  await page.locator('.settings').getByRole('radio', { name, exact: true }).check()
}
