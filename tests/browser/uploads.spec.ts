// Files that reach the host in an unlucky order, cut short or not at all: the
// page starts, or says what to do; and who has it already keeps it. Every pair
// of files is tried on the service worker alone in `tests/offline`.

import { expect, test as plain, type Page } from '@playwright/test'
import { builtFiles, keptNames, mishaps, renewedFiles, STATES, uploaded, type Files } from '../offline/versions.mjs'
import { startHost, type Host } from './host'
import { change, expectStarted, update, versions, visit } from './visit'

interface Fixtures {
  readonly host: Host
  readonly before: Files
  readonly after: Files
}

const test = plain.extend<Fixtures>({
  before: async ({}, use) => use(builtFiles()),
  after: async ({}, use, info) => use(renewedFiles(info.outputPath('renewed'))),
  host: async ({ before }, use) => {
    const host = await startHost(before)
    await use(host)
    await host.stop()
  },
})

test.describe('a first visit', () => {
  test.use({ serviceWorkers: 'block' })
  for (const done of ['hardly any', 'most']) {
    test(`starts or says what to do when ${done} of the files are there`, async ({ page, host, before, after }) => {
      test.setTimeout(900_000)
      const [from, to] = done === 'most' ? [before, after] : [after, before]
      host.files = to
      await page.goto(host.address)
      await expectStarted(page)
      // What is brought for later, and last of all the whole engine, can hinder the start too.
      await expect.poll(() => host.asked.some(name => name.endsWith('.wasm'))).toBe(true)
      // What the start does not ask for cannot keep it from starting, and one of the styles is like the others.
      const asked = [...new Set(host.asked)].filter(name => to.has(name) && name !== 'service-worker.js')
      const [style] = asked.filter(name => name.endsWith('.css'))
      const names = asked.filter(name => !name.endsWith('.css') || name === style)
      expect(names.length).toBeGreaterThan(5)
      for (const states of mishaps(names)) {
        host.files = uploaded(from, to, states)
        await test.step(JSON.stringify(states), async () => {
          // A host without any start page answers in its own words.
          const answer = await page.goto(host.address, { waitUntil: 'domcontentloaded' })
          if (answer?.status() !== 404) await expectStartedOrTold(page)
        })
      }
    })
  }
})

test.describe('a visit after one that worked', () => {
  test.use({ serviceWorkers: 'allow' })

  for (const state of STATES) {
    test(`each file of a new version is ${state}: the version before stays until that is whole`, async ({
      page,
      host,
      before,
      after,
    }) => {
      test.setTimeout(300_000)
      await visit(page, host)
      for (const name of keptNames(after)) {
        const files = uploaded(before, after, { [name]: state })
        // What came whole before would be kept for this try.
        await forgetOthers(page)
        host.files = files
        expect(await update(page), `a new version waits with ${name} ${state}`).toBe(false)
        // The browser itself looks for a new version, some seconds after a page is opened. A look that
        // goes on while the next upload begins would find a whole version, and one that begins then finds none.
        host.files = without(files, 'service-worker.js')
        await update(page)
        await page.reload()
        await expectStarted(page)
      }
      await expect(page.locator('html[data-renewed]')).toHaveCount(0)
      host.files = after
      await change(page)
      await expect(page.locator('html[data-renewed]')).toHaveCount(1)
      await expectStarted(page)
      await expect.poll(() => versions(page)).toBe(1)
    })
  }
})

function without(files: Files, name: string): Files {
  return new Map([...files].filter(([other]) => other !== name))
}

/** Drops the versions that are not in use. */
async function forgetOthers(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const names = (await caches.keys()).filter(name => /[0-9a-f]{16}$/.test(name))
    const main = document.querySelector<HTMLScriptElement>('#main-script')?.src ?? ''
    for (const name of names) if ((await (await caches.open(name)).match(main)) === undefined) await caches.delete(name)
  })
}

async function expectStartedOrTold(page: Page): Promise<void> {
  const startedOrTold = () =>
    page.evaluate(() => {
      const { body, documentElement } = document
      const stuck = document.querySelector<HTMLElement>('#start .stuck')
      const told =
        stuck?.checkVisibility({ visibilityProperty: true }) &&
        /could not start|Leave this page open/.test(stuck.innerText)
      return told || 'started' in documentElement.dataset || /is incomplete/.test(body?.innerText ?? '')
    })
  const soon = expect.poll(startedOrTold, { timeout: 1500, intervals: [20, 50, 100] }).toBe(true)
  if (
    await soon.then(
      () => true,
      () => false,
    )
  )
    return
  // Where no script has come, the styles tell by themselves, later: that is not waited for.
  await page.evaluate(() => document.getAnimations().forEach(animation => animation.finish()))
  expect(await startedOrTold()).toBe(true)
}
