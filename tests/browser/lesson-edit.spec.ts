// The editor of lessons: from a calculator to a lesson that is played from its link,
// and nothing that was typed is lost on the way.

import AxeBuilder from '@axe-core/playwright'
import { readFileSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { inflateRawSync } from 'node:zlib'
import type { Page } from '@playwright/test'
import { answer, headline, typed } from './engine'
import { expect, expectAnswer, input, open, setting, test, unfold } from './page'

const EDITOR = '#1/lesson/draft?view=edit'

test.use({ viewport: { width: 820, height: 1180 } })

/** The lesson that ships, for each test anew. */
function shipped(): Record<string, unknown> & { steps: Record<string, unknown>[] } {
  const file = new URL('../../crate/lessons/passive-bass.json', import.meta.url)
  return JSON.parse(readFileSync(file, 'utf8')) as ReturnType<typeof shipped>
}

async function bring(page: Page, text: string, name = 'lesson.json'): Promise<void> {
  await page
    .locator('.lesson-edit input[type=file]')
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) })
}

function steps(page: Page) {
  return page.locator('.edit-steps li')
}

function titles(page: Page): Promise<string[]> {
  return page.locator('.edit-steps .edit-choose > span:first-child').allTextContents()
}

/** The editor with a lesson in it. */
async function openWith(page: Page, lesson: object): Promise<void> {
  await open(page, EDITOR)
  await bring(page, JSON.stringify(lesson))
  await expect(steps(page).first()).toBeVisible()
}

async function press(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name, exact: true }).click()
}

test('from three calculators to a lesson that is played from its link', async ({ page, browser }) => {
  const told = answer('pickup', { load_r: '140k', lead_length: '6 m' })
  await open(page, '#1/pickup/load_r=140k&lead_length=6_m')
  await expectAnswer(page, told)
  await page.locator('.answer .ask').first().click()
  await page
    .locator('.backwards')
    .getByRole('button', { name: /^Ask about this/ })
    .click()
  await expect(page.locator('.backwards')).toContainText('step 1')
  const plot = page.locator('figure.plot').first()
  await plot.getByRole('button', { name: /^Ask about this/ }).click()
  await expect(plot).toContainText('step 2')

  await open(page, '#1/box-or-straight')
  await page.getByLabel('What to ask about').selectOption({ label: 'Order: DI box or straight in' })
  await page.locator('.ask-about').getByRole('button').click()
  await page.locator('.ask-about').getByRole('link', { name: 'Edit the lesson' }).click()
  await expect(steps(page)).toHaveCount(3)
  await page.getByLabel('Kind of step').waitFor()
  await page.locator('.edit-head').click()
  await page.getByLabel('Title of the lesson').fill('Ours')
  await expect(page.locator('.edit-flaws')).toHaveCount(0)
  await press(page, 'Try as a learner')
  await expect(page.locator('.lesson h1')).toHaveText('Ours')

  // Another device has nothing but the link, and settings of its own.
  const other = await (await browser.newContext()).newPage()
  await open(other, new URL(page.url()).hash.replace(/\?.*/, '?seed=7'))
  const [first] = headline(told)
  await expect(other.locator('.lesson-step h2')).toHaveText(first?.name ?? '')
  await expect(other.locator('.lesson-text')).toHaveText(`What is the ${first?.name.toLowerCase()}?`)
  await expect(other.locator('.lesson-given')).toContainText('140\u00a0kΩ')
  expect(await other.locator('main').innerText()).not.toContain(first?.text)
  await other.locator('.lesson-number input').fill(typed(first?.text ?? ''))
  await other.getByRole('radio', { name: 'certain' }).check({ force: true })
  await other.getByRole('button', { name: 'Commit' }).click()
  await expect(other.locator('.lesson-judged [data-row=key] dd')).toHaveText(first?.text ?? '')
  await expect(other.locator('.lesson-judged')).toHaveAttribute('data-verdict', 'lesson-verdict-right')
  await other.getByRole('button', { name: 'Next' }).click()
  await expect(other.locator('.lesson-step')).toHaveAttribute('data-kind', 'curve')
  await other.getByRole('button', { name: 'Skip' }).click()
  await expect(other.locator('.lesson-step')).toHaveAttribute('data-kind', 'choice')
  await other.context().close()
})

/** What was asked last, as it is kept. */
function lastStep(page: Page): Promise<{ text?: string; given?: string[] } | undefined> {
  return page.evaluate(() => {
    type Kept = { lesson: { steps: { text?: string; given?: string[] }[] } }[]
    return (JSON.parse(localStorage.getItem('stageohm.lesson-drafts') ?? '[]') as Kept)[0]?.lesson.steps.at(-1)
  })
}

test('what is asked from a calculator tells what decides it, and a question with it', async ({ page }) => {
  const ask = async (what: string) => {
    await page.getByLabel('What to ask about').selectOption({ label: what })
    await page.locator('.ask-about').getByRole('button').click()
    const step = await lastStep(page)
    return [step?.text, [...(step?.given ?? [])].sort().join(' ')]
  }
  // Nothing was typed: the voltage takes its supply, its path, and what flows along it.
  await open(page, '#1/phantom')
  expect(await ask('Reading: Voltage at the device')).toEqual([
    'What is the voltage at the device?',
    'current lead_length path supply',
  ])
  expect(await ask('Reading: Lost in the lead')).toEqual([
    'What is “Lost in the lead”?',
    'current draws lead_length path',
  ])
  // Winding and lead make the capacitance, and no load.
  await open(page, '#1/pickup/load_r=140k')
  expect(await ask('Reading: Capacitance on the coil')).toEqual([
    'What is the capacitance on the coil?',
    'coil_c lead_c lead_length',
  ])
  expect(await ask('Plot: Level over frequency')).toEqual([
    'Draw the level over frequency.',
    expect.stringMatching(/load_r/),
  ])
  // What was typed is told, but for what is asked.
  await open(page, '#1/levels/level=4_dBu')
  expect(await ask('Reading: Voltage, rms')).toEqual(['What is the voltage, rms?', 'level'])
  expect(await ask('Reading: Level in dBu')).toEqual(['What is the level in dBu?', ''])
  await open(page, '#1/box-or-straight/lead_length=20_m')
  const [text, given] = await ask('Order: DI box or straight in')
  expect(text).toBe('Put them in order: the best first.')
  expect(given?.split(' ')).toContain('lead_length')
  expect(given?.split(' ').length).toBeLessThanOrEqual(6)
})

test('a value is shown, and feedback works back to it all the same', async ({ page }) => {
  const number = { kind: 'number', title: 'Volts', points: 1, text: 'How many?', reading: 'volts' }
  await openWith(page, { ...shipped(), rig: rigOf('levels', { level: '4 dBu' }), draw: {}, steps: [number] })
  await steps(page).first().locator('.edit-choose').click()
  await unfold(page)
  await page.getByRole('checkbox', { name: 'Level', exact: true }).check()
  await page.getByLabel('Feedback works back to').selectOption('Level')
  await expect(page.locator('.edit-form')).toContainText('Values shown to the learner Level')
  await press(page, 'Try as a learner')
  await expect(page.locator('.lesson-given')).toContainText('4\u00a0dBu')
  await page.locator('.lesson-number input').fill('7.75')
  await page.getByRole('radio', { name: 'certain' }).check({ force: true })
  await page.getByRole('button', { name: 'Commit' }).click()
  // 7.75 V is 20 dBu.
  await expect(page.locator('.lesson-judged')).toContainText(/“Level” would have to be 20\.?0*\sdBu/)
})

/** A calculator with every value pinned. */
function rigOf(calculator: string, values: Record<string, string>) {
  const { fields } = answer(calculator, values)
  const texts = Object.entries(fields).map(([id, { text }]) => [id, text.replaceAll('\u00a0', ' ')])
  return { calculator, mains: '50', values: Object.fromEntries(texts) as Record<string, string> }
}

test('a step that cannot be answered, gives itself away, or is the same for all is named with what to do', async ({
  page,
}) => {
  const rig = rigOf('levels', { level: '4 dBu' })
  const number = { kind: 'number', points: 1, text: 'How much is it?' }
  const lesson = {
    ...shipped(),
    rig,
    draw: { level: { of: ['4 dBu', '10 dBu'], from: '', to: '', series: 'E12' } },
    steps: [
      { ...number, title: 'Blind', reading: 'volts' },
      { ...number, title: 'Itself', reading: 'dbu', given: ['level'] },
      { ...number, title: 'Fixed', reading: 'volts', given: ['level'], values: { level: '0 dBu' } },
      { ...number, title: 'Fine', reading: 'volts', given: ['level'] },
      { ...number, title: 'Unmoved', reading: 'full_scale_level', given: ['alignment'] },
      { ...number, title: 'Named', reading: 'volts', text: 'The level is 4 or 10 dBu.' },
      { kind: 'choice', title: 'Tie', points: 1, given: ['level'], reading: 'power', ways: ['a', 'b'].map(way) },
    ],
  }
  await openWith(page, lesson)
  await press(page, 'Check twenty seeds')
  const notes = page.locator('.edit-notes li')
  await expect(notes).toHaveText([
    /^1\. Blind.*The learner sees no values/,
    /^1\. Blind“Level” differs .* neither shown nor named/,
    /^2\. Itself.*asks for “Level” and shows it/,
    /^3\. Fixed.*the same for all learners/,
    /^5\. Unmoved.*the same for all learners/,
    /^7\. Tie.*Two ways tie: either order counts\./,
  ])
  await expect(page.locator('.edit-seeds')).not.toContainText('boundary')
  await notes.nth(2).getByRole('button').click()
  await expect(page.locator('#edit-form')).toHaveText('Step 2')
  await page.locator('.edit-head').click()
  await page.locator('summary', { hasText: 'Different values for each learner' }).click()
  await press(page, 'Level: the same for all')
  await press(page, 'Check twenty seeds')
  await expect(notes.first()).toHaveText(/^All learners have the same values\./)
  await expect(page.locator('.edit-notes')).not.toContainText('3. Fixed')
})

/** Ways that are the same. */
function way(name: string) {
  return { name, values: { power_r: '600 Ω' } }
}

test('values are pinned as a lesson writes them, whoever asks', async ({ page }) => {
  await open(page, '#1/pickup/load_r=140k&lead_length=20_ft')
  await setting(page, '1,5 comma')
  await setting(page, 'feet')
  await expectAnswer(
    page,
    answer('pickup', { load_r: '140k', lead_length: '20 ft' }, { settings: { decimal: 'comma', length: 'foot' } }),
  )
  await page.locator('.ask-about').getByRole('button').click()
  await page.locator('.ask-about').getByRole('link').click()
  await expect(steps(page)).toHaveCount(1)
  await page.locator('.edit-head').click()
  await unfold(page)
  const lead = page.locator('.edit-values').getByLabel('Lead length', { exact: true })
  await expect(lead).toHaveValue(/^6\.096\s?m$|^20\s?ft$/)
  for (const text of await page
    .locator('.edit-values input')
    .evaluateAll(all => all.map(one => (one as HTMLInputElement).value)))
    expect(text).not.toContain(',')
})

test('steps are moved, copied and deleted, and all of it is undone', async ({ page }) => {
  await openWith(page, shipped())
  const before = await titles(page)
  const [a = '', b = '', c = ''] = before.map(title => title.replace(/^\d+\. /, ''))
  await press(page, `${a}: down`)
  expect(await titles(page)).toEqual([`1. ${b}`, `2. ${a}`, ...before.slice(2)])
  await expect(page.getByRole('button', { name: `${a}: down`, exact: true })).toBeFocused()
  // By dragging, which is one step to undo however many places it passes.
  const grip = (await steps(page).nth(1).locator('.lesson-grip').boundingBox()) ?? { x: 0, y: 0 }
  const to = (await steps(page).nth(3).boundingBox()) ?? { x: 0, y: 0 }
  await page.mouse.move(grip.x + 10, grip.y + 10)
  await page.mouse.down()
  await page.mouse.move(to.x + 20, to.y - 20, { steps: 5 })
  await page.mouse.move(to.x + 20, to.y + 20, { steps: 5 })
  await page.mouse.up()
  expect((await titles(page))[3]).toBe(`4. ${a}`)
  await press(page, `${c}: duplicate`)
  await expect(steps(page)).toHaveCount(before.length + 1)
  await page
    .getByRole('button', { name: `${c}: delete`, exact: true })
    .first()
    .click()
  await page
    .getByRole('button', { name: `${c}: delete`, exact: true })
    .first()
    .click()
  await expect(steps(page)).toHaveCount(before.length - 1)
  for (const _ of [1, 2, 3, 4, 5]) await press(page, 'Undo')
  expect(await titles(page)).toEqual(before)
  await expect(page.getByRole('button', { name: 'Undo', exact: true })).toBeDisabled()
  for (const _ of [1, 2]) await press(page, 'Redo')
  expect((await titles(page))[3]).toBe(`4. ${a}`)
})

test('typing is one step to undo, and stays over a reload', async ({ page }) => {
  await openWith(page, shipped())
  await steps(page).nth(0).locator('.edit-choose').click()
  const title = page.getByLabel('Title', { exact: true })
  const before = await title.inputValue()
  await title.press('End')
  await title.pressSequentially(' and more')
  await page.getByLabel('Text', { exact: true }).fill('Other words')
  await page.reload()
  await steps(page).nth(0).locator('.edit-choose').click()
  await expect(title).toHaveValue(`${before} and more`)
  await expect(page.getByLabel('Text', { exact: true })).toHaveValue('Other words')
  await page.getByLabel('Text', { exact: true }).pressSequentially('!!!')
  await press(page, 'Undo')
  await expect(page.getByLabel('Text', { exact: true })).toHaveValue('Other words')
})

test('what is wrong with a step is told beside it, and what was typed stays', async ({ page }) => {
  const lesson = shipped()
  await openWith(page, lesson)
  const at = lesson.steps.findIndex(({ kind }) => kind === 'number')
  const item = steps(page).nth(at)
  await item.locator('.edit-choose').click()
  await page.getByLabel('Points', { exact: true }).fill('two')
  await expect(page.locator('.edit-flaws')).toContainText('points')
  await expect(item).toContainText('to check: 1')
  await expect(page.getByLabel('Points', { exact: true })).toHaveValue('two')
  await page.reload()
  await expect(item).toContainText('to check: 1')
  await item.locator('.edit-choose').click()
  await expect(page.getByLabel('Points', { exact: true })).toHaveValue('two')
  await page.getByLabel('Points', { exact: true }).fill('2.5')
  await expect(page.locator('.edit-flaws')).toHaveCount(0)
  await page.getByLabel('Kind of step').selectOption('Find the fault')
  await expect(page.locator('.edit-flaws')).toBeVisible()
  await press(page, 'Undo')
  await expect(page.locator('.edit-flaws')).toHaveCount(0)
})

test('twenty seeds flag a drawer that asks for nothing, and one that cannot be solved', async ({ page }) => {
  const target = {
    kind: 'target',
    title: 'Parts',
    points: 1,
    values: { load_r: '1 MΩ' },
    drawer: [{ field: 'load_r', value: '900 kΩ' }],
    limits: [{ reading: 'level_1k', least: '-60 dB' }],
  }
  await openWith(page, { ...shipped(), steps: [target] })
  await press(page, 'Check twenty seeds')
  const cells = page.locator('.edit-seeds td')
  await expect(cells).toHaveCount(20)
  await expect(page.locator('.edit-seeds td[data-doubt=trivial]')).toHaveCount(20)
  await steps(page).first().locator('.edit-choose').click()
  await page.getByLabel('At least').first().fill('40 dB')
  await press(page, 'Check twenty seeds')
  await expect(page.locator('.edit-seeds td[data-doubt=unsolvable]')).toHaveCount(20)
  await expect(page.locator('.edit-seeds')).toContainText('To check: 20')
})

test('what is dealt is other for other learners', async ({ page }) => {
  const number = { kind: 'number', title: 'At 1 kHz', points: 1, reading: 'level_1k', open: ['load_r'] }
  await openWith(page, { ...shipped(), draw: {}, steps: [number] })
  const keys = page.locator('.edit-seeds td')
  await press(page, 'Check twenty seeds')
  await expect(keys).toHaveCount(20)
  expect(new Set(await keys.allTextContents()).size).toBe(1)
  await page.locator('.edit-head').click()
  await page.locator('summary', { hasText: 'Different values for each learner' }).click()
  await page.getByLabel('Deal another field').selectOption('Load resistance')
  await page.getByLabel('One of these').fill('10k\n1M')
  await press(page, 'Check twenty seeds')
  await expect(page.locator('.edit-seeds')).toContainText('Every step can be solved')
  expect(new Set(await keys.allTextContents()).size).toBe(2)
  // From a range, in steps of a series.
  await page.getByLabel('One of these').fill('')
  await page.getByLabel('From', { exact: true }).fill('10k')
  await page.getByLabel('To', { exact: true }).fill('1M')
  await press(page, 'Check twenty seeds')
  await expect(page.locator('.edit-seeds')).toContainText('Every step can be solved')
  expect(new Set(await keys.allTextContents()).size).toBeGreaterThan(4)
})

test('values are edited in the calculator and taken back', async ({ page }) => {
  await openWith(page, shipped())
  await page.locator('.edit-head').click()
  await page.getByRole('link', { name: 'Edit values in the calculator' }).click()
  await expect(input(page, 'lead_length')).toHaveValue('6 m')
  await input(page, 'lead_length').fill('9 m')
  await page.getByRole('link', { name: 'Take these values' }).click()
  await unfold(page)
  await expect(page.locator('.edit-values').getByLabel('Lead length', { exact: true })).toHaveValue('9 m')
  await press(page, 'Undo')
  await expect(page.locator('.edit-values').getByLabel('Lead length', { exact: true })).toHaveValue('6 m')
  // The bar is gone from other calculators.
  await open(page, '#1/pad')
  await expect(page.getByRole('link', { name: 'Take these values' })).toHaveCount(0)
})

test('a calculator in another tab adds to the lesson that is open, and the form that is open stays', async ({
  page,
}) => {
  await openWith(page, shipped())
  const { length } = shipped().steps
  await steps(page).nth(1).locator('.edit-choose').click()
  const calculator = await page.context().newPage()
  await open(calculator, '#1/pickup')
  await calculator.locator('.ask-about').getByRole('button').click()
  await expect(steps(page)).toHaveCount(length + 1)
  await expect(page.locator('#edit-form')).toHaveText('Step 2')
  await press(page, 'Undo')
  await expect(steps(page)).toHaveCount(length)
})

test('the rig of a link is taken over with every value', async ({ page }) => {
  await open(page, EDITOR)
  await press(page, 'New lesson')
  await unfold(page)
  await page.getByLabel('Link to a calculator').fill('https://example.org/x#1/levels/level=4_dBu')
  await press(page, 'Take over')
  const count = Object.keys(answer('levels').fields).length
  await expect(page.getByText(`${count}, all pinned`)).toBeVisible()
  await page.getByLabel('Link to a calculator').fill('#1/teleport')
  await press(page, 'Take over')
  await expect(page.getByText('This is no link to a calculator.')).toBeVisible()
})

/** The lesson that is worked on, as it is kept. */
function keptLesson(page: Page): Promise<ReturnType<typeof shipped>> {
  return page.evaluate(() => {
    const [first] = JSON.parse(localStorage.getItem('stageohm.lesson-drafts') ?? '[]') as { lesson: unknown }[]
    return first?.lesson as ReturnType<typeof shipped>
  })
}

test('a text that is changed is not taught in its old words in another language', async ({ page }) => {
  await open(page, '?language=es#1/lesson/by-ear?view=edit')
  const language = page.locator('.edit-language')
  await expect(language).toContainText('Idioma de los textos que se editan: English.')
  await expect(language).toContainText('Todos los textos están también en este idioma: Español.')
  await steps(page).first().locator('.edit-choose').click()
  await page.getByLabel('Título', { exact: true }).fill('Two leads')
  await page.getByLabel('Nombre del montaje').first().fill('The short lead')
  await expect(language).toContainText(
    '2 textos no están traducidos (Español): los alumnos los leen en el idioma de la lección (English).',
  )
  const [first] = (await keptLesson(page)).steps
  expect(first).toMatchObject({ variants: { es: { title: '', names: ['', 'El cable de 15 m'] } } })

  await press(page, 'Probar como alumno')
  await expect(page.locator('article.lesson')).toHaveAttribute('lang', 'es')
  const title = page.locator('.lesson-step h2')
  await expect(title).toHaveText('Two leads')
  await expect(title).toHaveAttribute('lang', 'en')
  const rigs = page.locator('.lesson-ear dd')
  await expect(rigs).toHaveText(['The short lead', 'El cable de 15 m'])
  await expect(rigs.first()).toHaveAttribute('lang', 'en')
  await expect(rigs.last()).not.toHaveAttribute('lang')
  const text = page.locator('.lesson-text').first()
  await expect(text).toContainText('Auriculares puestos')
  await expect(text).not.toHaveAttribute('lang')
})

test('where a rig changes, what another language says of it goes; a language can be left out; undo brings it back', async ({
  page,
}) => {
  await open(page, '#1/lesson/by-ear?view=edit')
  const language = page.locator('.edit-language')
  await expect(language).toContainText('All texts are in Español as well.')
  await steps(page).first().locator('.edit-choose').click()
  await page.locator('.edit-named').last().getByLabel('Lead length', { exact: true }).fill('30 m')
  // Title, text, why, note, two hints and two names.
  await expect(language).toContainText('8 texts are not in Español: learners read them in English.')
  const [first, second] = (await keptLesson(page)).steps
  expect(first).not.toHaveProperty('variants')
  expect(second).toHaveProperty('variants.es.title')
  await press(page, 'Undo')
  await expect(language).toContainText('All texts are in Español as well.')

  await press(page, 'Leave out the texts in Español')
  await expect(language).toHaveCount(0)
  expect(JSON.stringify(await keptLesson(page))).not.toContain('variants')
  await press(page, 'Undo')
  await expect(language).toContainText('All texts are in Español as well.')

  // Written in the other language from now on.
  await page.locator('.edit-head').click()
  await page.getByLabel('Language of the lesson').selectOption('Español')
  await expect(language).toHaveCount(0)
  expect((await keptLesson(page))['language']).toBe('es')
})

test('a lesson is in the language of who begins it, and one from elsewhere keeps its own', async ({ page }) => {
  await open(page, `?language=es${EDITOR}`)
  await press(page, 'Nueva lección')
  const language = page.getByLabel('Idioma de la lección')
  await expect(language).toHaveValue('es')
  await page.getByLabel('Título de la lección').fill('La nuestra')
  expect((await keptLesson(page))['language']).toBe('es')
  await bring(page, JSON.stringify({ ...shipped(), language: 'pt-BR' }))
  await expect(language).toHaveValue('pt-BR')
  await page.getByLabel('Título de la lección').fill('A nossa')
  expect((await keptLesson(page))['language']).toBe('pt-BR')
})

test('damaged and newer files are refused with their text, and the lesson stays', async ({ page }) => {
  await openWith(page, shipped())
  const before = await titles(page)
  const newer = JSON.stringify({ ...shipped(), version: 9, title: 'Of tomorrow' })
  for (const text of ['{"stageohm":"lesson","steps":[{"ti', newer, '{"stageohm":"show"}']) {
    await bring(page, text)
    const alert = page.locator('.lesson-edit > [role=alert]')
    await expect(alert.getByRole('textbox')).toHaveValue(text)
    expect(await titles(page)).toEqual(before)
    await alert.getByRole('button', { name: 'Close' }).click()
  }
  // Of one that is half good the good half is there, and told what is not.
  const half = shipped()
  await bring(page, JSON.stringify({ ...half, steps: [...half.steps.slice(0, 2), 'nonsense'] }))
  await expect(steps(page)).toHaveCount(2)
  await expect(page.locator('.lesson-edit > [role=alert]')).toContainText('Not all of it')
  // What stood there before is still to be had.
  await expect(page.locator('.edit-which option')).toHaveCount(2)
})

test('saved as a file and in a page of its own, both open again', async ({ page }) => {
  await openWith(page, shipped())
  await page.locator('.edit-head').click()
  await page.getByLabel('Author').fill('A. Trainer')
  const save = async (name: string) => {
    const waiting = page.waitForEvent('download')
    await press(page, name)
    return readFile(await (await waiting).path(), 'utf8')
  }
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write'])
  await press(page, 'Copy link')
  const link = await page.evaluate(() => navigator.clipboard.readText())
  const file = JSON.parse(await save('Save as file')) as Record<string, unknown>
  expect(file).toMatchObject({ by: 'A. Trainer', revision: Number(shipped()['revision']) + 1 })
  // Handed out again without a change it is the same.
  const [, packed = ''] = /#1\/lesson\/([\w-]+)$/.exec(link) ?? []
  expect(JSON.parse(inflateRawSync(Buffer.from(packed, 'base64url')).toString())).toEqual(file)
  expect(JSON.parse(await save('Save as file'))).toEqual(file)
  const saved = await save('Save page with this lesson')
  expect(saved).toMatch(/"hash":"#1\/lesson\/[\w-]{200,}/)
  await page.getByLabel('Author').fill('Somebody else')
  await bring(page, saved, 'lesson.html')
  await expect(page.getByLabel('Author')).toHaveValue('A. Trainer')
})

/** The lesson as it is handed out. */
async function handedOut(page: Page): Promise<Record<string, unknown>> {
  const waiting = page.waitForEvent('download')
  await press(page, 'Save as file')
  return JSON.parse(await readFile(await (await waiting).path(), 'utf8')) as Record<string, unknown>
}

test('no revision is handed out with two texts: not after undo, and not from two tabs', async ({ page }) => {
  await openWith(page, shipped())
  const revision = Number(shipped()['revision'])
  await page.locator('.edit-head').click()
  await page.getByLabel('Author').fill('A. Trainer')
  expect(await handedOut(page)).toMatchObject({ by: 'A. Trainer', revision: revision + 1 })
  await press(page, 'Undo')
  expect((await handedOut(page))['revision']).toBe(revision + 2)
  await press(page, 'Redo')
  expect(await handedOut(page)).toMatchObject({ by: 'A. Trainer', revision: revision + 3 })

  await press(page, 'New lesson')
  const other = await page.context().newPage()
  await open(other, EDITOR)
  await other.locator('.edit-head').click()
  expect(await handedOut(page)).toMatchObject({ revision: 1 })
  await page.getByLabel('Author').fill('A. Trainer')
  await expect(other.getByLabel('Author')).toHaveValue('A. Trainer')
  await other.getByLabel('Title of the lesson').fill('Ours')
  expect(await handedOut(other)).toMatchObject({ title: 'Ours', revision: 2 })
})

test('a code while it fits one, and the file where it does not', async ({ page }) => {
  // Of one language: with a second one as many steps outgrow a code.
  const lesson = JSON.parse(
    JSON.stringify(shipped(), (key, value: unknown) => (key === 'variants' ? undefined : value)),
  ) as ReturnType<typeof shipped>
  await openWith(page, { ...lesson, steps: lesson.steps.slice(0, 3) })
  await press(page, 'QR code')
  await expect(page.getByRole('img', { name: 'QR code of the lesson' })).toBeVisible()
  const noise = Array.from({ length: 3000 }, (_, at) => String.fromCodePoint(0x4e00 + ((at * 7919) % 20000))).join('')
  await page.locator('.edit-head').click()
  await page.getByLabel('Note for the trainer').fill(noise)
  await expect(page.locator('.edit-along')).toContainText('too long for a QR code')
  await expect(page.getByRole('button', { name: 'QR code' })).toHaveCount(0)
  await expect(page.getByRole('button', { name: 'Copy link' })).toBeVisible()
  await page.getByLabel('Note for the trainer').fill(noise.repeat(8))
  await expect(page.locator('.edit-along')).toContainText(
    'What is left is the file: learners open it with “Open a lesson file”',
  )
  for (const name of ['Copy link', 'Save page with this lesson']) await expect(page.getByText(name)).toHaveCount(0)
  await expect(page.getByRole('button', { name: 'Save as file' })).toBeVisible()
  // By that file it is played.
  const waiting = page.waitForEvent('download')
  await press(page, 'Save as file')
  const file = await (await waiting).path()
  await open(page, '#1/lesson')
  await page.locator('input[type=file]').setInputFiles(file)
  await expect(page.locator('.lesson-step')).toBeVisible()
})

// Every kind of form on one of both: each takes its time.
const FORMS = [
  { width: 360, height: 740, kinds: ['number', 'choice', 'fault'] },
  { width: 1440, height: 900, kinds: ['', 'curve', 'target'] },
]
for (const { kinds, ...viewport } of FORMS) {
  for (const kind of kinds) {
    test(`nothing that axe finds in the form of ${kind || 'the lesson'}, ${viewport.width} wide`, async ({ page }) => {
      await page.setViewportSize(viewport)
      await openWith(page, shipped())
      await openFormOf(page, kind)
      const axe = () => new AxeBuilder({ page }).include('.lesson-edit')
      const all = axe().options({ rules: { 'target-size': { enabled: true } } })
      expect(told(await all.analyze())).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(viewport.width)
      // Of all that axe knows, the contrast alone depends on the colours.
      for (const theme of ['dark', 'stage']) {
        await setting(page, theme)
        await expect(page.locator('html')).toHaveAttribute('data-theme', theme)
        expect(told(await axe().withRules('color-contrast').analyze())).toEqual([])
      }
    })
  }
}

/** Opens the form of the first step of a kind, or that of the lesson, with all that is folded in it. */
async function openFormOf(page: Page, kind: string): Promise<void> {
  const at = shipped().steps.findIndex(step => step['kind'] === kind)
  await (at < 0 ? page.locator('.edit-head') : steps(page).nth(at).locator('.edit-choose')).click()
  await unfold(page)
}

function told({ violations }: Awaited<ReturnType<AxeBuilder['analyze']>>) {
  return violations.map(({ id, nodes }) => [id, nodes[0]?.html, nodes[0]?.failureSummary])
}

test.describe('on a phone', () => {
  test.use({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true })

  test('what is touched is large enough in every form, and in the notes', async ({ page }) => {
    await openWith(page, shipped())
    await press(page, 'Check twenty seeds')
    await expect(page.locator('.edit-seeds tbody tr')).toHaveCount(20)
    for (const kind of ['', 'read', 'number', 'magnitude', 'curve', 'choice', 'target', 'fault']) {
      await openFormOf(page, kind)
      const small = await page.locator('.lesson-edit').evaluate(editor =>
        [
          ...editor.querySelectorAll(
            'button, select, summary, a.chip, .lesson-grip, input[type=text], textarea, label:has(> input)',
          ),
        ]
          .filter(element => element.checkVisibility({ visibilityProperty: true }))
          .filter(element => {
            const { width, height } = element.getBoundingClientRect()
            return width < 43.9 || height < 43.9
          })
          .map(element => element.outerHTML),
      )
      expect(small, kind).toEqual([])
    }
  })

  test('no form scrolls sideways with letters twice as large', async ({ page }) => {
    const session = await page.context().newCDPSession(page)
    await session.send('Page.setFontSizes', { fontSizes: { standard: 32 } })
    await openWith(page, shipped())
    await press(page, 'Check twenty seeds')
    await expect(page.locator('.edit-seeds tbody tr')).toHaveCount(20)
    for (const kind of ['', 'read', 'number', 'magnitude', 'curve', 'choice', 'target', 'fault']) {
      await openFormOf(page, kind)
      const beyond = await page.evaluate(() =>
        [...document.querySelectorAll('.lesson-edit *')]
          .filter(element => element.checkVisibility() && element.closest('.wide') === null)
          .filter(element => element.getBoundingClientRect().right > innerWidth + 1)
          .map(element => element.outerHTML.slice(0, 200)),
      )
      expect(beyond, kind).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth), kind).toBeLessThanOrEqual(360)
    }
  })
})

test('there is a way from the list, with keys alone', async ({ page }) => {
  await open(page, '#1/lesson')
  await page.getByRole('link', { name: 'Write a lesson' }).focus()
  await page.keyboard.press('Enter')
  await page.getByLabel('Add a step').focus()
  await page.getByLabel('Add a step').selectOption('Number')
  await expect(page.locator('#edit-form')).toBeFocused()
  await expect(page.locator('.edit-flaws')).toBeVisible()
})
