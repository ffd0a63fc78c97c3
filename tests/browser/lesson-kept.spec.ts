// How lessons are kept and read back: nobody's answers stand in for another's, nothing
// that was committed is lost, and what is damaged, forged or odd is told.

import type { Page } from '@playwright/test'
import { lesson } from './engine'
import { taught } from './lesson-for-class'
import { packed, sample, stepOf } from './lesson-sample'
import { expect, open, setting, test } from './page'

const SEED = 7
const MAGNITUDE = 1 + sample.steps.findIndex(({ kind }) => kind === 'magnitude')

/** Commits something to the step about a magnitude. */
async function commit(page: Page): Promise<void> {
  await page.locator('.lesson-magnitude input').first().check()
  await page.getByRole('radio', { name: 'certain', exact: true }).check()
  await page.getByRole('button', { name: 'Commit' }).click()
  await expect(page.locator('.lesson-judged')).toBeVisible()
}

async function visit(page: Page, hash: string): Promise<void> {
  await page.goto('about:blank')
  await open(page, hash)
  await expect(page.locator('article')).toBeVisible()
}

const json = (name: string, content: unknown) => ({
  name,
  mimeType: 'application/json',
  buffer: Buffer.from(typeof content === 'string' ? content : JSON.stringify(content)),
})

const responses = [null, { decade: 2, sure: 3 }]

function result(name: string, changed: object = {}) {
  const { id, revision } = taught
  const { marked } = lesson({ lesson: taught, seed: SEED, responses })
  const points = marked.map(one => one?.points ?? null)
  const file = { stageohm: 'lesson-result', version: 1, lesson: { id, revision }, seed: SEED, name, responses, points }
  return json(`${name}.json`, { ...file, ...changed })
}

const row = (page: Page, name: string) => page.locator('.lesson-results tbody tr').filter({ hasText: name })

test('the answers to one lesson are not those to another without a name, nor to a copy', async ({ page }) => {
  const nameless = { ...sample, id: '' }
  await open(page, packed(nameless, `?seed=${SEED}&step=${MAGNITUDE}`))
  await commit(page)
  const steps = sample.steps.map(step => (step.kind === 'magnitude' ? { ...step, reading: 'level_1k' } : step))
  for (const other of [
    { ...nameless, title: 'Another' },
    { ...nameless, steps },
  ]) {
    await visit(page, packed(other, `?seed=${SEED}&step=${MAGNITUDE}`))
    await expect(page.getByRole('button', { name: 'Commit' })).toBeVisible()
    await expect(page.locator('.lesson-judged')).toHaveCount(0)
  }
  await visit(page, packed(nameless))
  await expect(page.locator('.lesson-judged')).toBeVisible()
})

test('a link that was looked at marks nothing, and other texts are told', async ({ page }) => {
  await open(page, '#1/lesson/collect')
  await page.locator('input[type="file"]:not([multiple])').setInputFiles(json('lesson.json', taught))
  await expect(page.getByText('The lesson is there now')).toBeVisible()
  const easy = { ...taught, steps: taught.steps.map(step => ({ ...step, ...('points' in step && { points: 0.5 }) })) }
  await visit(page, packed(easy, `?seed=${SEED}&step=2`))
  await commit(page)
  const text = await page.evaluate(() => {
    const [run] = JSON.parse(localStorage.getItem('stageohm.lesson-runs') ?? '[]') as { text: string }[]
    return run?.text
  })
  expect(text).toMatch(/^[0-9a-f]{16}$/)
  // The page stays, and with it the lesson that is open.
  await page.evaluate(() => (location.hash = '#1/lesson/collect'))
  const { id, revision } = taught
  const huge = [1e308, 1e308, 1e308]
  await page
    .locator('input[type="file"][multiple]')
    .setInputFiles([
      result('Ann'),
      result('Bob', { lesson: { id, revision, text } }),
      result('Cy', { points: huge }),
      result('Di', { points: huge, lesson: { id, revision: 2 } }),
      result('\u202eEve\u2066'),
      result('\u200b\u200d', { seed: 8 }),
    ])
  const of = taught.steps.reduce((sum, step) => sum + ('points' in step ? step.points : 0), 0)
  for (const name of ['Ann', 'Bob', 'Cy', 'Eve']) await expect(row(page, name)).toContainText(`of ${of} points`)
  await expect(row(page, 'Ann').locator('[data-note="several"]')).toContainText('More than one text')
  await expect(row(page, 'Bob').locator('[data-note="other"]')).toContainText('another text')
  await expect(row(page, 'Cy').locator('[data-note="forged"]')).toContainText('more points than the lesson has')
  await expect(row(page, 'Di').locator('[data-note="stale"]')).toContainText('more points than any lesson has')
  await expect(page.locator('.lesson-collect')).not.toContainText(/Infinity|1e\+?308|\u202e|\u2066/)
  await expect(row(page, '(no name)')).toHaveCount(1)
})

test('what is committed in one tab is committed in the other, and neither loses it', async ({ page }) => {
  await open(page, stepOf('magnitude', SEED))
  const other = await page.context().newPage()
  await open(other, stepOf('number', SEED))
  await other.locator('.lesson-number input').fill('-3 dB')
  await commit(page)
  await other.getByRole('button', { name: 'Previous' }).click()
  await expect(other.locator('.lesson-judged')).toBeVisible()
  await other.getByRole('button', { name: 'Next' }).click()
  await expect(other.locator('.lesson-number input')).toHaveValue('-3 dB')
  await visit(other, stepOf('magnitude', SEED))
  await expect(other.locator('.lesson-judged')).toBeVisible()
})

test('where storage is refused that is told, to learner and trainer', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, 'localStorage', {
      get: () => {
        throw new Error('refused')
      },
    })
  })
  await open(page, stepOf('magnitude', SEED))
  const told = page.locator('.lesson-told')
  await expect(page.locator('.lesson-magnitude')).toBeVisible()
  await expect(told).toBeEmpty()
  await commit(page)
  await expect(told).toContainText('This browser keeps nothing')
  await page.evaluate(
    step => (location.hash = location.hash.replace(/step=\d+/, `step=${step}`)),
    1 + sample.steps.length,
  )
  await expect(page.getByRole('heading', { name: 'Your result' })).toBeVisible()
  await expect(page.locator('.lesson-end .hint').last()).toContainText('This browser keeps nothing')
  await expect(page.locator('main')).not.toContainText('stay on this device')
  await page.evaluate(() => (location.hash = '#1/lesson/collect'))
  await page.locator('input[type="file"][multiple]').setInputFiles([result('Ann')])
  await expect(page.locator('.lesson-collect .notice')).toContainText('This browser keeps nothing')
  await expect(page.locator('.lesson-collect')).not.toContainText('until you clear them')
  await expect(row(page, 'Ann')).toHaveCount(1)
})

test('damaged runs and drafts are told with their text, and the page opens', async ({ page }) => {
  const response = { curve: 'x', parts: 3, order: 'q', measured: 7 }
  const bad = sample.steps.map(() => response)
  const run = { id: 'sample', revision: 3, seed: SEED, step: 1, responses: bad, committed: bad.map(() => true) }
  const steps = [{ kind: 'number', hints: 5, rig: 7, open: 'x', limits: {} }]
  const draft = { lesson: { id: 'a', revision: 1, rig: 7, steps }, saved: '' }
  const kept = { 'lesson-runs': JSON.stringify([run]), 'lesson-drafts': JSON.stringify([draft]) }
  for (const [hash, key] of [
    [packed(sample, `?seed=${SEED}&step=4`), 'lesson-runs'],
    ['#1/lesson/draft?view=edit', 'lesson-drafts'],
  ] as const) {
    await page.goto('about:blank')
    await open(page, '#1/about')
    await page.evaluate(([key, text]) => localStorage.setItem(`stageohm.${key}`, text), [key, kept[key]] as const)
    await visit(page, hash)
    await expect(page.locator('article h1')).toHaveText(key === 'lesson-runs' ? sample.title : 'Write a lesson')
    // Of a long text its beginning is shown, and all of it copied.
    await expect(page.locator('.notice').filter({ hasText: 'can no longer be read' })).toContainText(
      `${key} = ${kept[key]}`.slice(0, 300),
    )
  }
})

test('what is nested deeper than any lesson is told in plain words', async ({ page }) => {
  const deep = `{"stageohm":"lesson","version":1,"steps":[{"kind":"number","hints":${'['.repeat(50_000)}${']'.repeat(50_000)}}]}`
  await open(page, '#1/lesson/draft?view=edit')
  await page.locator('.lesson-edit input[type=file]').setInputFiles(json('deep.json', deep))
  await expect(page.locator('.lesson-edit > [role=alert]')).toContainText('nested in it far deeper')
  await visit(page, '#1/lesson')
  await page.locator('.lessons input[type=file]').setInputFiles(json('deep.json', deep))
  await expect(page.locator('.lessons [role=alert]')).toContainText('nested in it far deeper')
})

test('a lesson that is too long for an address opens in the editor', async ({ page }) => {
  const long = { ...sample.steps[0], note: 'n'.repeat(3900) }
  const steps = Array.from({ length: 20 }, (_, at) => ({ ...long, title: `Step of ${at}` }))
  await open(page, '#1/lesson')
  await page.locator('.lessons input[type=file]').setInputFiles(json('long.json', { ...sample, steps }))
  await expect(page).toHaveURL(/lesson\/file\?/)
  await visit(page, '#1/lesson/file?view=edit')
  await expect(page.locator('.edit-steps li')).toHaveCount(20)
  await expect(page.locator('.lesson-edit > [role=alert]')).toBeEmpty()
})

test('of lessons too long for an address, the one that was opened last is shown', async ({ page }) => {
  const steps = Array.from({ length: 20 }, () => ({ ...sample.steps[0], note: 'n'.repeat(3900) }))
  await open(page, '#1/lesson')
  // The page stays, and with it the lesson that is open.
  for (const title of ['The first', 'The second', 'The second, corrected']) {
    await page.evaluate(() => (location.hash = '#1/lesson'))
    await page.locator('.lessons input[type=file]').setInputFiles(json('long.json', { ...sample, title, steps }))
    await expect(page.locator('.lesson h1')).toHaveText(title)
    await expect(page).toHaveURL(/lesson\/file\?seed=/)
  }
})

interface Hold {
  on: boolean
  /** What is kept waiting, and how it is let go. */
  held: { call: string; go: () => void }[]
  /** What was answered since the page was held last. */
  answered: string[]
}

/** What the page asks its worker can be kept waiting, and let go in its order. */
async function holdable(page: Page) {
  await page.addInitScript(() => {
    const post = Worker.prototype.postMessage
    const hold: Hold = { on: false, held: [], answered: [] }
    Object.assign(window, { hold })
    Worker.prototype.postMessage = function (this: Worker, ...given: [{ call?: string; number?: number }]) {
      const [{ call = '', number }] = given
      this.addEventListener('message', ({ data }: MessageEvent<{ number?: number }>) => {
        if (data.number === number) hold.answered.push(call)
      })
      const go = () => Reflect.apply(post, this, given)
      if (hold.on) hold.held.push({ call, go })
      else go()
    }
  })
  const turn = (on: boolean) =>
    page.evaluate(on => {
      const { hold } = window as unknown as { hold: Hold }
      Object.assign(hold, { on, answered: [] })
      for (const { go } of hold.held.splice(0)) go()
    }, on)
  const until = (list: 'held' | 'answered', call: string, count: number) =>
    page.waitForFunction(
      ([list, call, count]) => {
        const { hold } = window as unknown as { hold: Hold }
        const calls = list === 'held' ? hold.held.map(one => one.call) : hold.answered
        return calls.filter(one => one === call).length >= count
      },
      [list, call, count] as const,
    )
  return {
    hold: () => turn(true),
    held: (call: string, count: number) => until('held', call, count),
    /** Lets all go until so much of it is answered, and drawn. */
    letGo: async (call: string, count: number) => {
      await turn(false)
      await until('answered', call, count)
      await page.evaluate(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done))))
    },
  }
}

test('who leaves while a lesson opens is not thrown back into it', async ({ page }) => {
  const worker = await holdable(page)
  await open(page, '#1/lesson')
  await worker.hold()
  await page.evaluate(() => (location.hash = '#1/lesson/hum'))
  await worker.held('lesson_read', 1)
  await page.goBack()
  await expect(page.locator('.lessons')).toBeVisible()
  await worker.letGo('lesson_deal', 1)
  await expect(page.locator('.lessons')).toBeVisible()
  await expect(page).toHaveURL(/#1\/lesson$/)
})

test('what is committed while the rest is marked again stays committed', async ({ page }) => {
  const worker = await holdable(page)
  await open(page, stepOf('number', SEED))
  await page.locator('.lesson-number input').fill('-3 dB')
  await page.getByRole('radio', { name: 'certain', exact: true }).check()
  await page.getByRole('button', { name: 'Commit' }).click()
  await expect(page.locator('.lesson-judged')).toBeVisible()
  await page.getByRole('button', { name: 'Previous' }).click()
  await page.locator('.lesson-magnitude input').first().check()
  await page.getByRole('radio', { name: 'certain', exact: true }).check()
  await worker.hold()
  await page.getByRole('button', { name: 'Commit' }).click()
  await worker.held('lesson_mark', 1)
  await setting(page, '1,5 comma')
  await worker.held('lesson_mark', 2)
  await worker.letGo('lesson_mark', 2)
  await expect(page.locator('.lesson-judged')).toBeVisible()
})

test('a file that the system keeps back is told, and those beside it are read', async ({ page }) => {
  await page.addInitScript(() => {
    for (const name of ['text', 'arrayBuffer'] as const) {
      const own = File.prototype[name]
      const read = function (this: File) {
        return this.name === 'gone.json' ? Promise.reject(new Error('moved')) : Reflect.apply(own, this, [])
      }
      Object.assign(File.prototype, { [name]: read })
    }
  })
  await open(page, '#1/lesson/collect')
  await page.locator('input[type="file"]:not([multiple])').setInputFiles(json('lesson.json', taught))
  await expect(page.getByText('The lesson is there now')).toBeVisible()
  await page
    .locator('input[type="file"][multiple]')
    .setInputFiles([result('Ann'), json('gone.json', {}), result('Bob')])
  for (const name of ['Ann', 'Bob']) await expect(row(page, name)).toHaveCount(1)
  await expect(page.locator('.lesson-unread li')).toContainText('gone.json')
  await page.evaluate(() => (location.hash = '#1/lesson'))
  await page.locator('.lessons input[type=file]').setInputFiles(json('gone.json', sample))
  await expect(page.locator('.lessons [role=alert]')).toContainText('moved')
})

test('the code of a result of a lesson without a name is collected', async ({ page }) => {
  await open(page, packed({ ...sample, id: '' }, `?seed=${SEED}&step=${MAGNITUDE}`))
  await commit(page)
  await page.evaluate(
    step => (location.hash = location.hash.replace(/step=\d+/, `step=${step}`)),
    1 + sample.steps.length,
  )
  await page.getByLabel('Nickname').fill('Ida')
  await page.getByRole('button', { name: 'QR code of the result' }).click()
  const link = (await page.locator('.qr code').textContent()) ?? ''
  await page.goto('about:blank')
  await page.goto(link)
  await expect(row(page, 'Ida')).toHaveCount(1)
  await expect(page).toHaveURL(/#1\/lesson\/collect$/)
})

test('a seed that is none is told, and a step that is none is the first that is left', async ({ page }) => {
  for (const odd of ['-1', '1e99']) {
    await visit(page, packed(sample, `?seed=${odd}&step=99`))
    await expect(page.locator('.lesson-told')).toContainText(`“${odd}”`)
    await expect(page.getByRole('heading', { level: 2 })).toHaveText('Magnitude')
    await expect(page).toHaveURL(new RegExp(`seed=\\d+&step=${MAGNITUDE}$`))
  }
  await visit(page, packed(sample, `?seed=${SEED}&step=99`))
  await commit(page)
  await expect(page.locator('.lesson-told')).toBeEmpty()
  await visit(page, packed(sample, `?seed=${SEED}&step=99`))
  await expect(page.getByRole('heading', { level: 2 })).toHaveText('Number')
  // The address of the result is one behind the last.
  await visit(page, packed(sample, `?seed=${SEED}&step=${1 + sample.steps.length}`))
  await expect(page.getByRole('heading', { level: 2 })).toHaveText('Your result')
})

test('titles turn nothing around, and are never empty', async ({ page }) => {
  await open(page, packed({ ...sample, title: 'A \u202enossel\u2066' }))
  await expect(page.locator('h1')).toHaveText('A nossel')
  await expect(page.locator('h1')).toHaveCSS('unicode-bidi', 'isolate')
  const steps = sample.steps.map(step => ({ ...step, title: '\u200b' }))
  for (const title of ['', '\u200b\u202e\u2060', undefined]) {
    await visit(page, packed({ ...sample, title, steps }))
    await expect(page.locator('h1')).toHaveText('Untitled lesson')
    await expect(page.getByRole('heading', { level: 2 })).toHaveText('Step 1')
  }
})
