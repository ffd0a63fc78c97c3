// Every calculator, beside its files and as one file without a network: typed
// into, read, seen, and opened again from its link.

import { expect, test, type Page } from '@playwright/test'
import { pathToFileURL } from 'node:url'
import { change, descriptions } from './engine'
import { address, file } from './places'

const forms = { served: address, 'one file': pathToFileURL(file).href }

for (const description of descriptions()) {
  for (const [form, start] of Object.entries(forms)) {
    test(`${description.title}, ${form}`, async ({ page, context }) => {
      const beyond: string[] = []
      context.on('request', request => {
        const { protocol, origin } = new URL(request.url())
        if (['data:', 'blob:'].includes(protocol)) return
        if (form === 'served' ? origin !== new URL(address).origin : protocol !== 'file:') beyond.push(request.url())
      })
      if (form === 'one file') await context.setOffline(true)
      const { field, text, answer } = change(description)

      await page.goto(start)
      await page.getByRole('link', { name: description.title }).first().click()
      await expect(page.getByRole('heading', { level: 1 })).toHaveText(description.title)
      const before = await curve(page)
      await input(page, field).fill(text)
      await expectAnswer(page, answer)
      if (before !== null) await expect.poll(() => curves(page)).not.toEqual(before)

      // The address follows what was typed after the frame.
      await expect(page).toHaveURL(new RegExp(`${field}=`))
      const second = await context.newPage()
      await second.goto(page.url())
      await expect(input(second, field)).toHaveValue(text)
      await expectAnswer(second, answer)
      expect(await curves(second)).toEqual(await curves(page))
      expect(beyond).toEqual([])
    })
  }
}

function input(page: Page, field: string) {
  return page.locator(`[data-field="${field}"] input[type=text]`)
}

async function expectAnswer(page: Page, { report }: ReturnType<typeof change>['answer']) {
  for (const { id, text } of report?.headline ?? []) {
    await expect(page.locator(`.answer [data-reading="${id}"] bdi`)).toHaveText(text)
  }
}

/** All paths of all plots, or nothing where a calculator draws none. */
async function curve(page: Page): Promise<string[] | null> {
  const paths = await curves(page)
  return paths.length > 0 ? paths : null
}

function curves(page: Page): Promise<string[]> {
  return page.locator('figure.plot path.curve').evaluateAll(paths => paths.map(path => path.getAttribute('d') ?? ''))
}
