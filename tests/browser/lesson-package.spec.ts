// Packages for learning systems, in one (scorm-again) that keeps what it is told: begun,
// gone on with, closed in the middle, refusing, ended twice; and its types, which it
// does not look at.

import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { expect, test, type Page } from '@playwright/test'
import { parse } from 'node-html-parser'
import { startHost, type Host } from './host'
import { answerNumber, answerOrder, packageOf } from './lesson-in-package'
import { packed } from './lesson-sample'
import { HALF, HALF_ANSWERABLE, ORDERED, TOLD, UNANSWERABLE } from './lessons'
import { open } from './page'

const require = createRequire(import.meta.url)
const SYSTEM = readFileSync(require.resolve('scorm-again').replace(/[^/]*$/, 'scorm-again.js'))

type Standard = 'scorm12' | 'scorm2004'

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
        return window.refuses && name.endsWith(window.refuses) ? 'false' : own.apply(window.${api}, given)
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
  await answerNumber(lessonIn(page), text)
}

/** Goes on, by whatever the button says. */
async function goOn(page: Page): Promise<void> {
  await lessonIn(page).locator('.lesson-next').click()
}

/** Begins again with other values, and answers there. */
async function practise(page: Page): Promise<void> {
  await lessonIn(page).getByRole('button', { name: 'Again with other values' }).click()
  await goOn(page)
  await answer(page, '40 dB')
}

/** Closes the lesson and opens it again, as the learning system has kept it. */
async function openAgain(page: Page, standard: Standard): Promise<void> {
  const api = standard === 'scorm12' ? 'API' : 'API_1484_11'
  // The frame goes, as a window that is closed.
  await page.evaluate(() => document.querySelector('iframe')?.remove())
  await expect.poll(() => endsOf(page)).toBe(1)
  await page.evaluate(api => {
    const system = (window as unknown as Record<string, { cmi: unknown }>)[api]
    const { cmi } = JSON.parse(JSON.stringify(system)) as { cmi: unknown }
    sessionStorage.setItem('kept', JSON.stringify(cmi))
  }, api)
  await page.reload()
}

function endsOf(page: Page): Promise<number> {
  return page.evaluate(() => {
    const { calls } = window as unknown as { calls: string[][] }
    return calls.filter(([name]) => name === 'Finish' || name === 'Terminate').length
  })
}

/** What a record says of a learner: score, statuses and answers. */
async function recorded(page: Page): Promise<Record<string, string>> {
  const isRecord = ([element]: readonly [string, string]) => /score|status|interactions/.test(element)
  return Object.fromEntries(Object.entries(await told(page)).filter(isRecord))
}

/** Whether it was passed or completed, by what of the standard says so. */
async function statusOf(page: Page, standard: Standard): Promise<readonly (string | undefined)[]> {
  const said = await told(page)
  if (standard === 'scorm12') return [said['cmi.core.lesson_status']]
  return [said['cmi.completion_status'], said['cmi.success_status']]
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
    await lesson.getByRole('button', { name: 'Result' }).click()
    await expect(lesson.locator('.lesson-total')).toBeVisible()
    // The learning system has it already, and something was sent.
    await expect(lesson.getByText('Nothing is sent')).toHaveCount(0)
    await expect(lesson.getByLabel('Nickname')).toHaveCount(0)
    await expect(lesson.getByRole('button', { name: 'Save result' })).toHaveCount(0)
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
    await expect.poll(async () => (await told(page))['cmi.suspend_data']).toContain('6 dB')
    await openAgain(page, standard)
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

for (const standard of ['scorm12', 'scorm2004'] as const) {
  test(`ways in an order are told as sequencing by ${standard}`, async ({ page }) => {
    const is12 = standard === 'scorm12'
    const host = await hostOf(await packageOf(page, standard, ORDERED), standard)
    await page.goto(host.address)
    const ids = await answerOrder(lessonIn(page))
    const first = 'cmi.interactions.0.'
    await expect.poll(async () => (await told(page))[`${first}type`]).toBe('sequencing')
    const said = await told(page)
    expectTypes(said, is12)
    const named = (ids: readonly number[]) => (is12 ? ids.map(id => 'abc'[id]).join(',') : ids.join('[,]'))
    expect(said[first + (is12 ? 'student_response' : 'learner_response')]).toBe(named(ids))
    expect(said[`${first}correct_responses.0.pattern`]).toBe(named([1, 0, 2]))
    expect(said[`${first}result`] === 'correct').toBe(`${ids}` === '1,0,2')
    // The learning system took them too.
    const kept = await page.evaluate(() => {
      const { API, API_1484_11 } = window as unknown as Record<string, Record<string, (element: string) => string>>
      const element = 'cmi.interactions._count'
      return API === undefined ? API_1484_11?.['GetValue']?.(element) : API['LMSGetValue']?.(element)
    })
    expect(`${kept}`).toBe('1')
    await host.stop()
  })
}

for (const standard of ['scorm12', 'scorm2004'] as const) {
  const is12 = standard === 'scorm12'

  test(`of a finished run another one changes nothing by ${standard}`, async ({ page }) => {
    const host = await hostOf(await packageOf(page, standard), standard)
    await page.goto(host.address)
    const lesson = lessonIn(page)
    await goOn(page)
    await answer(page, '6 dB')
    await goOn(page)
    await answer(page, '0.8 dB')
    await goOn(page)
    const again = lesson.getByRole('button', { name: 'Again with other values' })
    await expect(again).toHaveAccessibleDescription('Another run does not count: only your first one does.')
    await expect.poll(() => statusOf(page, standard)).toContain('passed')
    const before = await recorded(page)
    await practise(page)
    await expect(lesson.getByText('This run does not count: the learning system has your first one.')).toBeVisible()
    await goOn(page)
    await answer(page, '40 dB')
    await lesson.getByRole('button', { name: 'Back to the run that counts' }).click()
    await expect(lesson.getByText('4 of 4 points').first()).toBeVisible()
    expect(await recorded(page)).toEqual(before)
    await openAgain(page, standard)
    await expect(lesson.getByText('The learning system has your result')).toBeVisible()
    await goOn(page)
    await practise(page)
    await expect(lesson.getByRole('button', { name: 'Back to the run that counts' })).toBeVisible()
    expect(await recorded(page)).toEqual({})
    await host.stop()
  })

  test(`beside an unfinished run another one is practice by ${standard}`, async ({ page }) => {
    const host = await hostOf(await packageOf(page, standard), standard)
    await page.goto(host.address)
    const lesson = lessonIn(page)
    await goOn(page)
    await answer(page, '6 dB')
    await goOn(page)
    await goOn(page)
    const again = lesson.getByRole('button', { name: 'Again with other values' })
    await expect(again).toHaveAccessibleDescription(/^Your first run is not finished.*as practice/)
    await practise(page)
    await expect(lesson.getByText('This run is practice')).toBeVisible()
    await lesson.getByRole('button', { name: 'Back to the run that counts' }).click()
    await expect(lesson.getByText('This run is practice')).toBeHidden()
    await lesson.getByRole('button', { name: 'And into ten times as much?' }).click()
    await answer(page, '0.8 dB')
    await expect.poll(() => statusOf(page, standard)).toContain('passed')
    const said = await told(page)
    expectTypes(said, is12)
    // Answers, and the score, are of the first run alone.
    const answers = Object.entries(said).filter(([element]) => /(student|learner)_response$/.test(element))
    expect(answers.map(([, response]) => response)).toEqual(['6', '0.8'])
    expect(said[is12 ? 'cmi.core.score.raw' : 'cmi.score.raw']).toBe('100')
    await host.stop()
  })

  test(`what is left counts as not answered once the learner finishes by ${standard}`, async ({ page }) => {
    const host = await hostOf(await packageOf(page, standard), standard)
    await page.goto(host.address)
    const lesson = lessonIn(page)
    await goOn(page)
    await answer(page, '6 dB')
    await goOn(page)
    await goOn(page)
    const status = is12 ? ['incomplete'] : ['incomplete', undefined]
    await expect.poll(() => statusOf(page, standard)).toEqual(status)
    await lesson.getByRole('button', { name: 'Finish here: 1 step counts as not answered' }).click()
    await expect.poll(() => statusOf(page, standard)).toEqual(is12 ? ['passed'] : ['completed', 'passed'])
    await expect(lesson.getByText('The learning system has your result')).toBeVisible()
    const before = await recorded(page)
    expect(before[is12 ? 'cmi.core.score.raw' : 'cmi.score.raw']).toBe('50')
    expectTypes(await told(page), is12)
    await lesson.getByRole('button', { name: 'And into ten times as much?' }).click()
    await answer(page, '0.8 dB')
    await openAgain(page, standard)
    await expect(lesson.getByText('The learning system has your result')).toBeVisible()
    expect(await recorded(page)).toEqual({})
    await host.stop()
  })

  test(`where there are no points nobody passes or fails by ${standard}`, async ({ page }) => {
    const host = await hostOf(await packageOf(page, standard, UNANSWERABLE), standard)
    await page.goto(host.address)
    await answer(page, '6 dB')
    await expect.poll(() => statusOf(page, standard)).toContain('completed')
    const said = await told(page)
    expect(Object.keys(said).filter(element => /score|success|pattern/.test(element))).toEqual([])
    expect(said['cmi.interactions.0.result']).toBe('neutral')
    expectTypes(said, is12)
    await host.stop()
  })

  test(`a step without an answer is done once it was answered by ${standard}`, async ({ page }) => {
    const host = await hostOf(await packageOf(page, standard, HALF_ANSWERABLE), standard)
    await page.goto(host.address)
    await answer(page, '6 dB')
    await goOn(page)
    await answer(page, '6 dB')
    await expect.poll(() => statusOf(page, standard)).toContain('passed')
    expect((await told(page))[is12 ? 'cmi.core.score.raw' : 'cmi.score.raw']).toBe('100')
    await host.stop()
  })

  test(`what asks nothing is completed at its last step by ${standard}`, async ({ page }) => {
    const files = await packageOf(page, standard, TOLD)
    expect(`${files.get('imsmanifest.xml')}`).not.toMatch(/mastery|satisfiedByMeasure/i)
    const host = await hostOf(files, standard)
    await page.goto(host.address)
    await expect.poll(async () => (await told(page))['cmi.suspend_data']).toContain('"told"')
    expect((await statusOf(page, standard))[0]).toBe('incomplete')
    await goOn(page)
    await expect.poll(async () => (await statusOf(page, standard))[0]).toBe('completed')
    expect(Object.keys(await told(page)).filter(element => /score|success/.test(element))).toEqual([])
    await host.stop()
  })

  test(`a first refusal is told and tried again by ${standard}`, async ({ page }) => {
    const host = await hostOf(await packageOf(page, standard), standard)
    await page.addInitScript(() => Object.assign(window, { refuses: 'Commit' }))
    await page.goto(host.address)
    const lesson = lessonIn(page)
    await expect(lesson.getByText('did not take your answers')).toBeVisible()
    await page.evaluate(() => Object.assign(window, { refuses: '' }))
    await expect(lesson.getByText('did not take your answers')).toBeHidden()
    await expect(lesson.getByText('go to the learning system that opened this lesson')).toBeVisible()
    await goOn(page)
    await answer(page, '6 dB')
    await expect.poll(async () => Object.keys(await recorded(page)).join()).toContain('interactions.0')
    await host.stop()
  })

  test(`what is answered before the system begins is told once it does by ${standard}`, async ({ page }) => {
    const host = await hostOf(await packageOf(page, standard), standard)
    await page.addInitScript(() => Object.assign(window, { refuses: 'Initialize' }))
    await page.goto(host.address)
    const lesson = lessonIn(page)
    await expect(lesson.getByText('has not been reached yet')).toBeVisible()
    const alert = page.frameLocator('iframe').getByText('cannot be reached')
    await expect(alert).toBeVisible()
    await goOn(page)
    await answer(page, '6 dB')
    expect(await told(page)).toEqual({})
    await page.evaluate(() => Object.assign(window, { refuses: '' }))
    await expect(lesson.getByText('go to the learning system that opened this lesson')).toBeVisible()
    await expect(alert).toBeHidden()
    const response = `cmi.interactions.0.${is12 ? 'student' : 'learner'}_response`
    await expect.poll(async () => (await told(page))[response]).toBe('6')
    await host.stop()
  })
}

for (const pass of [undefined, 0, 'half']) {
  test(`a lesson that passes from ${pass ?? 'nothing'} is not packed`, async ({ page }) => {
    await open(page, packed({ ...HALF, pass }, '?view=package'))
    await expect(page.getByRole('alert').getByText('what share of the points passes')).toBeVisible()
    await expect(page.locator('[data-standard]')).toHaveCount(0)
  })
}

test('a learning system that refuses is told, and the learner can finish', async ({ page }) => {
  const host = await hostOf(await packageOf(page, 'scorm12'), 'scorm12')
  await page.goto(host.address)
  await page.evaluate(() => Object.assign(window, { refuses: 'Commit' }))
  const lesson = lessonIn(page)
  await lesson.getByRole('button', { name: 'Next' }).click()
  await answer(page, '6 dB')
  await expect(lesson.getByText('did not take your answers')).toBeVisible()
  await lesson.getByRole('button', { name: 'Next' }).click()
  await lesson
    .getByRole('button', { name: 'Skip' })
    .or(lesson.getByRole('button', { name: 'Result' }))
    .click()
  await expect(lesson.getByRole('button', { name: 'Save result' })).toBeVisible()
  await lesson.getByRole('button', { name: 'Previous' }).click()
  await page.evaluate(() => Object.assign(window, { refuses: '' }))
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

test('a package has the lesson as its file has it, in all its languages', async ({ page }) => {
  const steps = HALF.steps.map(step => ({ ...step, variants: { es: { title: `${step.title} (es)` } } }))
  const both = { ...HALF, steps, variants: { es: { title: 'La mitad' } } }
  const files = await packageOf(page, 'scorm12', both)
  expect(JSON.parse(`${files.get('lesson.json')}`)).toEqual(both)
  const host = await startHost(files)
  await page.goto(host.address)
  const lesson = page.frameLocator('iframe')
  await expect(lesson.locator('h1')).toHaveText(HALF.title)
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
        ...ofInteraction(said, {
          numeric: /^-?\d+(\.\d+)?$/,
          sequencing: /^[a-z\d](,[a-z\d])*$/,
        }),
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
        [/\.result$/, /^(correct|incorrect|neutral|0\.\d{1,7})$/],
        [/\.type$/, /^(true-false|choice|(long-)?fill-in|matching|performance|sequencing|likert|numeric|other)$/],
        [/(learner_response|pattern)$/, /^[\s\S]{0,4000}$/],
        ...ofInteraction(said, {
          numeric: /^-?\d+(\.\d+)?(\[:\]-?\d+(\.\d+)?)?$/,
          sequencing: /^[\w-]{1,250}(\[,\][\w-]{1,250})*$/,
        }),
      ]
  for (const [element, value] of Object.entries(said)) {
    for (const [names, type] of types) if (names.test(element)) expect(value, element).toMatch(type)
  }
}

/** What a response and its patterns have to be, by what each interaction is. */
function ofInteraction(
  said: Readonly<Record<string, string>>,
  formats: Readonly<Record<string, RegExp>>,
): (readonly [RegExp, RegExp])[] {
  return Object.entries(said).flatMap(([element, type]) => {
    const format = element.endsWith('.type') ? formats[type] : undefined
    const place = element.replace(/type$/, '').replaceAll('.', '\\.')
    return format === undefined ? [] : [[new RegExp(`^${place}.*(response|pattern)$`), format] as const]
  })
}
