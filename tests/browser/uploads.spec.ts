// Files that reach the host in an unlucky order, cut short or not at all: the
// page starts, or says what to do; and who has it already keeps it.

import { test as plain, expect, type Page } from '@playwright/test'
import { builtFiles, renewedFiles, startHost, type Files, type Host } from './host'
import { mishaps, STATES, uploaded } from './uploads'
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
  for (const part of [0, 1, 2, 3]) {
    test(`starts or says what to do, part ${part + 1} of 4`, async ({ page, host, before, after }) => {
      test.setTimeout(600_000)
      // What the start does not ask for cannot keep it from starting.
      host.files = after
      await page.goto(host.address)
      await expectStarted(page)
      const names = [...new Set(host.asked)].filter(name => after.has(name) && name !== 'service-worker.js')
      expect(names.length).toBeGreaterThan(5)
      for (const base of ['old', 'new']) {
        // Most of the upload is done, or hardly any.
        const [from, to] = base === 'new' ? [before, after] : [after, before]
        const all = [...mishaps(names.map(name => nameIn(to, name)))]
        for (const states of all.filter((_, index) => index % 4 === part)) {
          host.files = uploaded(from, to, states)
          await test.step(`${base} ${JSON.stringify(states)}`, async () => {
            // A host without any start page answers in its own words.
            if ((await page.goto(host.address))?.status() === 404) return
            await expectStartedOrTold(page)
          })
        }
      }
    })
  }
})

test.describe('a visit after one that worked', () => {
  test.use({ serviceWorkers: 'allow' })

  test('keeps the version it has until a new one is whole, whatever the host has of that', async ({
    page,
    host,
    before,
    after,
  }) => {
    test.setTimeout(600_000)
    await visit(page, host)
    // What people edit is not part of a version.
    const names = [...after.keys()].filter(name => !name.startsWith('lesson.'))
    for (const states of mishaps(names)) {
      host.files = uploaded(before, after, states)
      const waits = await update(page)
      expect(waits, `a new version waits with ${JSON.stringify(states)}`).toBe(false)
    }
    await page.reload()
    await expectStarted(page)
    await expect(page.locator('html[data-renewed]')).toHaveCount(0)
    // And once the host is whole, it comes.
    host.files = after
    await change(page)
    await expect(page.locator('html[data-renewed]')).toHaveCount(1)
    await expectStarted(page)
    await expect.poll(() => versions(page)).toBe(1)
  })

  for (const state of STATES) {
    test(`starts again and again while the start page's files are ${state}`, async ({ page, host, before, after }) => {
      await visit(page, host)
      for (const name of after.keys()) {
        host.files = uploaded(before, after, { [name]: state })
        await page.goto('about:blank')
        await page.goto(host.address)
        await expectStarted(page)
      }
    })
  }
})

function nameIn(files: Files, name: string): string {
  const base = (name: string) => name.replace(/-[0-9a-f]{16}(?=[._])/, '')
  return [...files.keys()].find(other => base(other) === base(name)) ?? name
}

async function expectStartedOrTold(page: Page): Promise<void> {
  await expect
    .poll(() =>
      page.evaluate(() => {
        const { body, documentElement } = document
        const stuck = document.querySelector<HTMLElement>('#start[data-stuck] .stuck')
        const told = stuck !== null && /Reload the page/.test(stuck.innerText)
        return told || 'started' in documentElement.dataset || /did not arrive whole/.test(body?.innerText ?? '')
      }),
    )
    .toBe(true)
}
