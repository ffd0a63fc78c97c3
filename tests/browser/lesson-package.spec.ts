// Packages for learning systems, in one (scorm-again) that keeps what it is told: begun,
// gone on with, closed in the middle, refusing, ended twice; and its types, which it
// does not look at.

import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { expect, test, type Page } from '@playwright/test'
import { unzipSync } from 'fflate'
import { parse } from 'node-html-parser'
import { startHost, type Host } from './host'
import { packed } from './lesson-sample'
import { HALF } from './lessons'
import { open } from './page'
import { nameOf, RecordStore } from './record-store'

const require = createRequire(import.meta.url)
const SYSTEM = readFileSync(require.resolve('scorm-again').replace(/[^/]*$/, 'scorm-again.js'))

type Standard = 'scorm12' | 'scorm2004'

/** Saves the package of the lesson in the page. */
async function packageOf(page: Page, standard: string): Promise<Map<string, Buffer>> {
  await open(page, packed(HALF, '?view=package'))
  const [saved] = await Promise.all([
    page.waitForEvent('download'),
    page.locator(`[data-standard="${standard}"]`).click(),
  ])
  expect(saved.suggestedFilename()).toMatch(new RegExp(`^stageohm-half-${standard}-[\\d-]+\\.zip$`))
  const files = unzipSync(readFileSync(await saved.path()))
  return new Map(Object.entries(files).map(([name, bytes]) => [name, Buffer.from(bytes)]))
}

/** A learning system with the package, and what an earlier attempt left. */
async function hostOf(files: ReadonlyMap<string, Buffer>, standard: Standard): Promise<Host> {
  const [api, made] = standard === 'scorm12' ? ['API', 'Scorm12API'] : ['API_1484_11', 'Scorm2004API']
  const system = `<!doctype html><link rel="icon" href="data:,"><title>A learning system</title><script src="system.js"></script><script>
    window.calls = []
    const kept = JSON.parse(sessionStorage.kept || 'null')
    window.${api} = new ${made}({ autocommit: false, logLevel: 5 })
    if (kept) window.${api}.loadFromJSON(kept)
    for (const name of ['LMSSetValue', 'SetValue', 'LMSCommit', 'Commit', 'LMSFinish', 'Terminate', 'LMSInitialize', 'Initialize']) {
      const own = window.${api}[name]
      if (own === undefined) continue
      window.${api}[name] = (...given) => {
        window.calls.push([name.replace('LMS', ''), ...given])
        return window.refuses && /Commit$/.test(name) ? 'false' : own.apply(window.${api}, given)
      }
    }
  </script><iframe src="package/index.html" width="700" height="700"></iframe>`
  const inPackage = [...files].map(([name, bytes]): [string, Buffer] => [`package/${name}`, bytes])
  return startHost(new Map([['index.html', Buffer.from(system)], ['system.js', SYSTEM], ...inPackage]))
}

function lessonIn(page: Page) {
  return page.frameLocator('iframe').frameLocator('iframe')
}

/** What was set last, by element. */
async function told(page: Page): Promise<Record<string, string>> {
  const calls = await page.evaluate(() => (window as unknown as { calls: string[][] }).calls)
  return Object.fromEntries(calls.filter(([name]) => name === 'SetValue').map(([, element, value]) => [element, value]))
}

async function answer(page: Page, text: string): Promise<void> {
  const lesson = lessonIn(page)
  await lesson.getByRole('textbox').fill(text)
  await lesson.getByRole('radio', { name: 'fairly sure' }).check()
  await lesson.getByRole('button', { name: 'Commit' }).click()
  await expect(lesson.locator('[data-committed="true"]')).toBeVisible()
}

for (const standard of ['scorm12', 'scorm2004'] as const) {
  test(`a whole attempt by ${standard}`, async ({ page }) => {
    const host = await hostOf(await packageOf(page, standard), standard)
    await page.goto(host.address)
    const lesson = lessonIn(page)
    await expect(lesson.getByText('go to the learning system that opened this lesson')).toBeVisible()
    await lesson.getByRole('button', { name: 'Next' }).click()
    await answer(page, '6 dB')
    await lesson.getByRole('button', { name: 'Next' }).click()
    await answer(page, '2 dB')
    const is12 = standard === 'scorm12'
    const raw = is12 ? 'cmi.core.score.raw' : 'cmi.score.raw'
    const status = is12 ? 'cmi.core.lesson_status' : 'cmi.success_status'
    await expect.poll(async () => (await told(page))[status]).toBe('passed')
    const said = await told(page)
    // 20 log10 1.1 = 0.83 dB is lost of the second one: 2 dB is off by 1.17 of 3, less 0.3.
    const second = (3 - (2 - 20 * Math.log10(1.1))) / 2.7
    expect(Number(said[raw])).toBeCloseTo(50 + 50 * second, 1)
    if (!is12) expect(said['cmi.completion_status']).toBe('completed')
    expectTypes(said, is12)
    const first = 'cmi.interactions.0.'
    expect(said[`${first}type`]).toBe('numeric')
    expect(said[`${first}result`]).toBe('correct')
    expect(said[first + (is12 ? 'student_response' : 'learner_response')]).toBe('6')
    await page.goto('about:blank')
    await host.stop()
  })

  test(`closed in the middle and gone on with by ${standard}`, async ({ page }) => {
    const host = await hostOf(await packageOf(page, standard), standard)
    await page.goto(host.address)
    await lessonIn(page).getByRole('button', { name: 'Next' }).click()
    await answer(page, '6 dB')
    await expect.poll(async () => (await told(page))['cmi.suspend_data']).toContain('"half"')
    const api = standard === 'scorm12' ? 'API' : 'API_1484_11'
    const kept = await page.evaluate(api => {
      const system = (window as unknown as Record<string, { cmi: unknown }>)[api]
      return JSON.parse(JSON.stringify(system)).cmi as unknown
    }, api)
    // The frame goes, as a window that is closed; what is said then is said once.
    const ends = await page.evaluate(async () => {
      document.querySelector('iframe')?.remove()
      await new Promise(done => setTimeout(done, 300))
      const { calls } = window as unknown as { calls: string[][] }
      return calls.filter(([name]) => name === 'Finish' || name === 'Terminate').length
    })
    expect(ends).toBe(1)
    await page.evaluate(kept => sessionStorage.setItem('kept', JSON.stringify(kept)), kept)
    await page.reload()
    await expect(lessonIn(page).locator('[data-committed="true"]')).toBeVisible()
    await lessonIn(page).getByRole('button', { name: 'Next' }).click()
    await answer(page, '0.8 dB')
    await expect.poll(async () => Object.values(await told(page)).filter(value => value === 'passed').length).toBe(1)
    // What was told before is not told again.
    const interactions = Object.entries(await told(page)).filter(([element]) => element.endsWith('.id'))
    expect(interactions.map(([, id]) => id.replace(/.*\D/, ''))).toEqual(['3'])
    await host.stop()
  })
}

test('a learning system that refuses is told, and the learner can finish', async ({ page }) => {
  const host = await hostOf(await packageOf(page, 'scorm12'), 'scorm12')
  await page.goto(host.address)
  await page.evaluate(() => Object.assign(window, { refuses: true }))
  const lesson = lessonIn(page)
  await lesson.getByRole('button', { name: 'Next' }).click()
  await answer(page, '6 dB')
  await expect(lesson.getByText('did not take your answers')).toBeVisible()
  await lesson.getByRole('button', { name: 'Next' }).click()
  await page.evaluate(() => Object.assign(window, { refuses: false }))
  await answer(page, '0.8 dB')
  await expect(lesson.getByText('did not take your answers')).toBeHidden()
  expect((await told(page))['cmi.core.lesson_status']).toBe('passed')
  await host.stop()
})

test('without a learning system the lesson says so and goes on', async ({ page }) => {
  const files = await packageOf(page, 'scorm12')
  const host = await startHost(files)
  await page.goto(host.address)
  await expect(page.getByRole('alert')).toContainText('The learning system cannot be reached')
  const lesson = page.frameLocator('iframe')
  await lesson.getByRole('button', { name: 'Next' }).click()
  await expect(lesson.getByRole('textbox')).toBeVisible()
  await host.stop()
})

test('manifests name every file, and what the standards ask for', async ({ page }) => {
  for (const standard of ['scorm12', 'scorm2004']) {
    const files = await packageOf(page, standard)
    const manifest = parse(`${files.get('imsmanifest.xml')}`)
    const listed = manifest.querySelectorAll('file').map(file => file.getAttribute('href'))
    expect([...listed, 'imsmanifest.xml'].sort()).toEqual([...files.keys()].sort())
    expect(manifest.querySelector('organization > title')?.text).toBe('Half the voltage & more')
    const version = standard === 'scorm12' ? '1.2' : '2004 4th Edition'
    expect(manifest.querySelector('schemaversion')?.text).toBe(version)
  }
  const cmi5 = parse(`${(await packageOf(page, 'cmi5')).get('cmi5.xml')}`)
  expect(cmi5.querySelector('au')?.getAttribute('moveon') ?? cmi5.querySelector('au')?.getAttribute('moveOn')).toBe(
    'CompletedOrPassed',
  )
})

/** The data types of the run-time environments, as far as a lesson uses them (SCORM 1.2 RTE, 3.4; SCORM 2004 RTE, 4). */
function expectTypes(said: Readonly<Record<string, string>>, is12: boolean): void {
  const types: readonly (readonly [RegExp, RegExp])[] = is12
    ? [
        [/suspend_data$/, /^[\s\S]{0,4096}$/],
        [/score\.(raw|min|max)$/, /^(100|\d{1,2})(\.\d+)?$/],
        [/lesson_status$/, /^(passed|completed|failed|incomplete|browsed|not attempted)$/],
        [/\.id$/, /^[\w-]{1,255}$/],
        [/\.type$/, /^(true-false|choice|fill-in|matching|performance|sequencing|likert|numeric)$/],
        [/\.time$/, /^([01]\d|2[0-3]):[0-5]\d:[0-5]\d$/],
        [/\.latency$|session_time$/, /^\d{2,4}:[0-5]\d:[0-5]\d(\.\d{1,2})?$/],
        [/\.result$/, /^(correct|wrong|unanticipated|neutral|-?\d+(\.\d+)?)$/],
        [/\.weighting$/, /^-?\d+(\.\d+)?$/],
        [/(student_response|pattern)$/, /^[\s\S]{0,255}$/],
      ]
    : [
        [/suspend_data$/, /^[\s\S]{0,4096}$/],
        [/score\.scaled$|progress_measure$/, /^(0|1|0\.\d{1,7})$/],
        [/score\.(raw|min|max)$/, /^(100|\d{1,2})(\.\d+)?$/],
        [/completion_status$/, /^(completed|incomplete)$/],
        [/success_status$/, /^(passed|failed)$/],
        [/\.id$/, /^urn:[a-z0-9][a-z0-9-]{0,31}:\S+$/],
        [/\.timestamp$/, /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ$/],
        [/\.latency$|session_time$/, /^PT\d+M\d+(\.\d{1,2})?S$/],
        [/\.result$/, /^(correct|incorrect|0\.\d{1,7})$/],
      ]
  for (const [element, value] of Object.entries(said)) {
    for (const [names, type] of types) if (names.test(element)) expect(value, element).toMatch(type)
  }
}

test.describe('by cmi5, against the requirements of the standard', () => {
  test('an attempt in two sessions says what it has to, once, and in order', async ({ page }) => {
    const store = new RecordStore(await packageOf(page, 'cmi5'))
    await store.start()
    await page.goto(store.launch())
    const lesson = page.frameLocator('iframe')
    const give = async (text: string) => {
      await lesson.getByRole('textbox').fill(text)
      await lesson.getByRole('radio', { name: 'fairly sure' }).check()
      await lesson.getByRole('button', { name: 'Commit' }).click()
      await expect(lesson.locator('[data-committed="true"]')).toBeVisible()
    }
    await lesson.getByRole('button', { name: 'Next' }).click()
    await give('6 dB')
    const verbs = () => store.statements.map(({ verb }) => nameOf(verb))
    await expect.poll(verbs).toEqual(['initialized', 'answered'])
    expect(store.statements[1]?.result?.response).toBe('6')
    await page.goto('about:blank')
    await expect.poll(verbs).toEqual(['initialized', 'answered', 'terminated'])
    await page.goto(store.launch())
    await expect(lesson.locator('[data-committed="true"]')).toBeVisible()
    await lesson.getByRole('button', { name: 'Next' }).click()
    await give('0.8 dB')
    await expect.poll(verbs).toEqual(['initialized', 'answered', 'completed', 'passed'])
    expect(store.statements[3]?.result?.score?.scaled).toBeCloseTo(1, 6)
    await page.goto('about:blank')
    await expect.poll(verbs).toEqual(['initialized', 'answered', 'completed', 'passed', 'terminated'])
    expect(store.refused).toEqual([])
    await store.stop()
  })

  test('looking around says that it began and ended, and no score', async ({ page }) => {
    const store = new RecordStore(await packageOf(page, 'cmi5'))
    store.launchMode = 'Browse'
    await store.start()
    await page.goto(store.launch())
    const lesson = page.frameLocator('iframe')
    await expect(lesson.getByText('nothing goes to the learning system')).toBeVisible()
    await lesson.getByRole('button', { name: 'Next' }).click()
    await lesson.getByRole('textbox').fill('6 dB')
    await lesson.getByRole('radio', { name: 'fairly sure' }).check()
    await lesson.getByRole('button', { name: 'Commit' }).click()
    await expect(lesson.locator('[data-committed="true"]')).toBeVisible()
    await page.goto('about:blank')
    await expect.poll(() => store.statements.map(({ verb }) => nameOf(verb))).toEqual(['initialized', 'terminated'])
    expect(store.refused).toEqual([])
    await store.stop()
  })
})
