// The finder of faults: three taps to the first test, from there to the cause, and back;
// whatever stands in its address; for thumbs, keys and ears.

import AxeBuilder from '@axe-core/playwright'
import type { Page } from '@playwright/test'
import type { FaultAnswer, FaultQuestion, NextStep } from '../../www/generated/contract'
import { descriptions, fault } from './engine'
import { expect, layOut, open, setting, test, unfold } from './page'
import { inventedShow, openShow } from './stage-open'

const PHONE = { width: 360, height: 740 }

test.use({ viewport: PHONE })

function step(page: Page, id: string) {
  return page.locator(`.fault-step[data-step="${id}"]`)
}

/** The step that the native engine would do next. */
function next(answer: FaultAnswer): NextStep {
  if (answer.next === null) throw new Error('nothing is next')
  return answer.next
}

/** The values of an example of the whole line. */
function example(id: string): Record<string, string> {
  const presets = descriptions().find(({ id }) => id === 'whole-line')?.presets ?? []
  return Object.fromEntries(presets.find(preset => preset.id === id)?.values ?? [])
}

/** The page shows these odds. */
async function expectOdds(page: Page, { odds }: FaultAnswer): Promise<void> {
  const shown = page.locator('.fault-odds > ol > li')
  await expect(shown).toHaveCount(Math.min(odds.length, 5))
  for (const [place, { cause, share }] of odds.slice(0, 5).entries()) {
    await expect(shown.nth(place)).toHaveAttribute('data-cause', cause)
    const percent = share < 0.01 ? 1 : Math.min(Math.round(share * 100), 99)
    await expect(shown.nth(place).locator('strong')).toHaveText(new RegExp(`^\\D*${percent}\\D*$`))
  }
}

test('three taps from the start page to the first test', async ({ page }) => {
  await open(page)
  await page.getByRole('link', { name: 'Find the fault' }).click()
  await page.getByRole('button', { name: /^Hum/ }).click()
  await page.getByRole('button', { name: 'One channel' }).click()
  const answer = fault({ symptom: 'hum', scope: 'one' })
  await expect(step(page, next(answer).step)).toBeVisible()
  await expectOdds(page, answer)
})

test('the second tap of a double one does nothing', async ({ page }) => {
  await open(page, '#1/fault')
  for (const symptom of ['hum', 'dead', 'thin']) {
    await page.locator(`[data-symptom=${symptom}]`).dblclick()
    await expect(page.locator('[data-scope=one]')).toBeVisible()
    await expect(page).toHaveURL(new RegExp(`#1/fault/${symptom}$`))
    await page.goBack()
  }
})

test('a loop of earths is followed to its cure, with the numbers of the core', async ({ page }) => {
  await open(page, '#1/fault/hum')
  await page.locator('[data-line=keys]').click()
  await page.locator('[data-scope=one]').click()
  const question: Partial<FaultQuestion> = { values: example('keys'), symptom: 'hum', scope: 'one', answers: [] }
  let answer = fault(question)
  while (answer.found === null) {
    const told = next(answer)
    await expect(step(page, told.step)).toBeVisible()
    await expectOdds(page, answer)
    for (const { id, text } of told.figures) await expect(page.locator(`[data-figure="${id}"]`)).toContainText(text)
    // Whoever has a loop sees what a loop brings.
    const towards = told.outcomes.filter(({ leads }) => leads === 'loop')
    const [likely] = [...(towards.length > 0 ? towards : told.outcomes)].sort((a, b) => b.odds - a.odds)
    const outcome = likely?.outcome ?? ''
    await page.locator(`.fault-step [data-outcome="${outcome}"]`).click()
    answer = fault({ ...question, answers: [...(question.answers ?? []), { step: told.step, outcome }] })
    question.answers?.push({ step: told.step, outcome })
  }
  const found = page.locator('.fault-found')
  await expect(found).toHaveAttribute('data-found', answer.found.cause)
  expect(answer.found.cause).toBe('loop')
  for (const { id, text } of answer.found.figures) {
    await expect(found.locator(`[data-figure="${id}"]`).first()).toContainText(text)
  }
  await expectOdds(page, answer)

  // No change goes on looking, and the way back takes that back.
  const { proof } = answer.found
  if (proof === null) throw new Error('nothing proves it')
  await found.locator('.fault-proof [data-outcome=same]').click()
  const after = fault({ ...question, answers: [...(question.answers ?? []), { step: proof.step, outcome: 'same' }] })
  await expectOdds(page, after)
  await page.goBack()
  await expect(found).toBeVisible()
  await found.locator('.fault-proof [data-outcome=cured]').click()
  await expect(page.locator('.fault-proved')).toBeVisible()

  // It counts on this device until that is forgotten.
  await page.getByRole('button', { name: 'It was this' }).click()
  await page.reload()
  await page.locator('.fault-judgement > summary').click()
  await expect(page.locator('.fault-judgement li').filter({ hasText: 'two earths' })).toContainText('counted: 1')
  await page.getByRole('button', { name: 'Forget what this device counted: 1' }).click()
  await expect(page.locator('.fault-judgement')).not.toContainText('counted: 1')
})

test('a walk counts once on this device, and for one cause', async ({ page }) => {
  const counted = () =>
    page.evaluate(() => JSON.parse(localStorage.getItem('stageohm.faults') ?? '{}') as Record<string, number>)
  const was = page.locator('.fault-was > button')
  const walk = '#1/fault/hum.one?did=turn:changes,volume:gone'
  await open(page, walk)
  const found = page.locator('.fault-found')
  const cause = (await found.getAttribute('data-found')) ?? ''
  await was.click()
  expect(await counted()).toEqual({ [cause]: 1 })
  // It is no more probable for having been counted itself.
  const answers = [
    { step: 'turn', outcome: 'changes' },
    { step: 'volume', outcome: 'gone' },
  ]
  await page.reload()
  await expectOdds(page, fault({ symptom: 'hum', scope: 'one', answers }))
  // It is known again, and what it counted can be taken back.
  for (const [pressed, count] of [
    ['true', {}],
    ['false', { [cause]: 1 }],
  ] as const) {
    await page.reload()
    await expect(was).toHaveAttribute('aria-pressed', pressed)
    await was.click()
    expect(await counted()).toEqual(count)
  }
  // A walk that goes on from there is the same one, however its numbers are written.
  await found.locator('.fault-proof [data-outcome=cured]').click()
  await expect(page.locator('.fault-proved')).toBeVisible()
  await setting(page, '1,5 comma')
  await expect(was).toHaveAttribute('aria-pressed', 'true')
  // One that heard the same on another line is not.
  await open(page, '#1/fault/hum.one/lead_length=9_m?did=turn:changes,volume:gone')
  await expect(was).toHaveAttribute('aria-pressed', 'false')
  await was.click()
  expect(await counted()).toEqual({ [cause]: 2 })
  await page.locator('.fault-judgement > summary').click()
  await page.getByRole('button', { name: 'Forget what this device counted: 2' }).click()
  await expect(was).toHaveAttribute('aria-pressed', 'false')
  await was.click()
  expect(await counted()).toEqual({ [cause]: 1 })
})

test('of causes that nothing tells apart a walk counts one', async ({ page }) => {
  const answers: { step: string; outcome: string | null }[] = []
  const question = { symptom: 'dead', scope: 'one' }
  let answer = fault({ ...question, answers })
  while (answer.next !== null) {
    answers.push({ step: answer.next.step, outcome: null })
    answer = fault({ ...question, answers })
  }
  const did = answers.map(({ step }) => `${step}:?`).join(',')
  await open(page, `#1/fault/dead.one?did=${did}`)
  const was = page.locator('.fault-left .fault-was > button')
  await was.first().click()
  await was.nth(1).click()
  await expect(was.nth(1)).toHaveAttribute('aria-pressed', 'true')
  await expect(was.first()).toHaveAttribute('aria-pressed', 'false')
  await page.locator('.fault-judgement > summary').click()
  await page.reload()
  await expect(page.locator('.fault-left .fault-was > [aria-pressed=true]')).toHaveCount(1)
})

test('the way back, undo and a reload lose nothing', async ({ page }) => {
  await open(page, '#1/fault')
  await page.locator('[data-symptom=buzz]').click()
  await page.locator('[data-scope=several]').click()
  const first = next(fault({ symptom: 'buzz', scope: 'several' })).step
  await step(page, first).locator('.fault-outcomes button').first().click()
  await expect(page.locator(`[data-done="${first}"]`)).toBeVisible()
  await page.reload()
  await expect(page.locator(`[data-done="${first}"]`)).toBeVisible()
  const second = await page.locator('.fault-step').getAttribute('data-step')

  // A step is taken back by one tap, or by the browser's own way back.
  await page.getByRole('button', { name: 'Undo', exact: true }).click()
  await expect(step(page, first)).toBeVisible()
  await page.goBack()
  await expect(step(page, second ?? '')).toBeVisible()
  await page.goBack()
  await expect(step(page, first)).toBeVisible()
  await page.goForward()

  // Something else, then nobody knows; an answer is changed where it stands.
  await page.getByRole('button', { name: 'Do something else' }).click()
  const other = page.locator('[data-other]').last()
  const id = (await other.getAttribute('data-other')) ?? ''
  await other.click()
  await expect(step(page, id)).toBeVisible()
  await page.getByRole('button', { name: "Don't know" }).click()
  await expect(page.locator(`[data-done="${id}"]`)).toContainText("Don't know")
  await page
    .getByRole('button', { name: /^Change: / })
    .last()
    .click()
  await page.locator(`[data-done="${id}"] [aria-pressed=false]`).first().click()
  await expect(page.locator(`[data-done="${id}"]`)).not.toContainText("Don't know")
  await page
    .locator(`[data-done="${id}"]`)
    .getByRole('button', { name: /^Take back/ })
    .click()
  await expect(page.locator(`[data-done="${id}"]`)).toHaveCount(0)

  // Who goes away and begins anew finds the search that was left.
  await open(page, '#1/fault')
  await page.getByRole('link', { name: /^Go on: Buzz/ }).click()
  await expect(page.locator(`[data-done="${first}"]`)).toBeVisible()
})

test('the line is changed without losing an answer', async ({ page }) => {
  await open(page, '#1/fault/hum.one?did=volume:same,lift:same')
  await expect(page.locator('[data-done=lift]')).not.toContainText('not counted')
  await page.locator('.fault-line summary').click()
  await page.locator('[data-field=box] select').selectOption('none')
  await expect(page.locator('[data-done=lift]')).toContainText('not counted')
  const answers = [{ step: 'volume', outcome: 'same' }]
  await expectOdds(page, fault({ values: { box: 'none' }, symptom: 'hum', scope: 'one', answers }))
  await page.locator('[data-field=lead_length] input').fill('12 pigs')
  await expect(page.locator('.fault-line .problem')).toContainText('pigs')
  await page.locator('[data-field=lead_length] input').fill('12 m')
  const values = { box: 'none', lead_length: '12 m' }
  await expectOdds(page, fault({ values, symptom: 'hum', scope: 'one', answers }))
  await expect(page).toHaveURL(/box=none&lead_length=12_m\?did=volume:same,lift:same$/)
  await page.locator('[data-field=box] select').selectOption('active')
  await expect(page.locator('[data-done=lift]')).not.toContainText('not counted')
})

test('what should be is said where a step looks whether it is', async ({ page }) => {
  await open(page, '#1/fault/quiet.one?now=pads')
  await expect(step(page, 'pads').locator('[data-planned]')).toContainText(/Pad, 0.dB/)
})

test('where it cut out is asked by the names of the places', async ({ page }) => {
  await open(page, '#1/fault/intermittent.one?now=wiggle')
  const outcomes = step(page, 'wiggle').locator('[data-outcome]')
  await expect(outcomes).toContainText(['At the first lead', 'At the run', 'Nowhere', 'know'])
})

test('a step that a link asks for is shown, also where six others tell more', async ({ page }) => {
  const values = { source: 'output', power: 'earthed', box: 'passive' }
  const usual = fault({ values, symptom: 'hum', scope: 'one' })
  expect([usual.next, ...usual.others].some(one => one?.step === 'volts-between')).toBe(false)
  await open(page, '#1/fault/hum.one/source=output&power=earthed&box=passive?now=volts-between')
  await expect(step(page, 'volts-between')).toBeVisible()
})

test('answers that contradict each other are told, with the likeliest slip', async ({ page }) => {
  const answers = [
    { step: 'mute', outcome: 'same' },
    { step: 'source-end', outcome: 'gone' },
    { step: 'volume', outcome: 'gone' },
  ]
  const { slip } = fault({ symptom: 'hum', scope: 'one', answers })
  if (slip === null) throw new Error('the core sees no slip')
  const did = answers.map(({ step, outcome }) => `${step}:${outcome}`).join(',')
  await open(page, `#1/fault/hum.one?did=${did}`)
  await expect(page.locator('.fault-slip')).toContainText('contradict')
  await page.getByRole('button', { name: 'Take that one back' }).click()
  await expect(page.locator(`[data-done="${answers[slip.answer]?.step}"]`)).toHaveCount(0)
  const rest = answers.filter((_, place) => place !== slip.answer)
  await expectOdds(page, fault({ symptom: 'hum', scope: 'one', answers: rest }))
  await expect(page.locator('.fault-slip')).toHaveCount(0)
})

test('with a sign of danger the only step is to stop', async ({ page }) => {
  await open(page, '#1/fault')
  await page.getByRole('button', { name: 'Yes', exact: true }).click()
  await expect(page.locator('[data-stop=danger]')).toContainText('licensed electrician')
  await expect(page.locator('.fault :is([data-symptom], [data-step], .fault-line, .fault-odds)')).toHaveCount(0)
  await page.reload()
  await expect(page.locator('[data-stop=danger]')).toBeVisible()
  await page.getByRole('button', { name: /^Back/ }).click()
  await expect(page.locator('[data-symptom=hum]')).toBeVisible()
  // And at any later time, with all answers kept.
  await open(page, '#1/fault/hum.one?did=volume:same')
  await page.getByRole('button', { name: 'Danger', exact: true }).click()
  await expect(page.locator('[data-stop=danger]')).toBeVisible()
  await page.getByRole('button', { name: /^Back/ }).click()
  await expect(page.locator('[data-done=volume]')).toBeVisible()
})

test('so it is with a dangerous reading of a meter', async ({ page }) => {
  const values = 'source=output&power=earthed'
  await open(page, `#1/fault/hum.one/${values}?did=mute:gone,volts-between:dangerous`)
  await expect(page.locator('[data-stop=meter]')).toContainText('licensed electrician')
  await expect(page.locator('.fault :is([data-symptom], [data-step], .fault-line, .fault-odds)')).toHaveCount(0)
  await page.getByRole('button', { name: /^Back/ }).click()
  await expect(page.locator('.fault-step')).toBeVisible()
  await expect(page.locator('[data-done=mute]')).toBeVisible()
})

for (const [what, hash, lost] of [
  ['names no symptom that is known', '#1/fault/howl.one', 'howl'],
  ['names a scope that is not', '#1/fault/hum.half', 'half'],
  ['has a test that there is not', '#1/fault/hum.one?did=mute:gone,sing:loud', 'sing'],
  ['has an outcome that there is not', '#1/fault/hum.one?did=mute:louder', 'louder'],
  ['has odds of a cause that there is not', '#1/fault/hum.one?odds=gremlins:4', 'gremlins'],
  ['says nothing in some pieces', '#1/fault/hum.one/loose?did=&x=%E0%A4', 'x=%E0%A4'],
] as const) {
  test(`a link that ${what}`, async ({ page }) => {
    await open(page, hash)
    await expect(page.locator('.fault .notice code')).toContainText(lost)
    // What it says besides is used.
    await expect(page.locator('.fault :is([data-symptom], [data-scope], [data-step])').first()).toBeVisible()
  })
}

test('texts of a link mean the same to a reader with other settings', async ({ page }) => {
  await open(page, '#1/fault')
  await setting(page, '1,5 comma')
  await open(page, '#1/fault/dull.one/lead_length=40.5?in=foot')
  await page.locator('.fault-line summary').click()
  await expect(page.locator('[data-field=lead_length] input')).toHaveValue(/^(40,5 ft|12,3\d* m)$/)
  const settings = { decimal: 'point', length: 'foot', mains: '50', language: 'en' } as const
  await expectOdds(page, fault({ symptom: 'dull', scope: 'one', values: { lead_length: '40.5' }, settings }))
})

test('how common a cause is taken to be is for the reader to say', async ({ page }) => {
  await open(page, '#1/fault/hum.one')
  await page.locator('.fault-judgement > summary').click()
  await page.getByLabel('A fault in the instrument').selectOption({ label: '× 4' })
  const known = [{ cause: 'source', times: 4, seen: 0 }]
  await expectOdds(page, fault({ symptom: 'hum', scope: 'one', known }))
  // This device keeps it, and the link says it.
  await expect(page).toHaveURL(/odds=source:4$/)
  await open(page, '#1/fault/hum.several')
  await expectOdds(page, fault({ symptom: 'hum', scope: 'several', known }))
  await page.getByRole('button', { name: 'As judged' }).click()
  await expectOdds(page, fault({ symptom: 'hum', scope: 'several' }))
})

test('a row of the input list leads to the finder with its line', async ({ page }) => {
  await page.setViewportSize({ width: 1440, height: 900 })
  await openShow(page, inventedShow())
  await page.locator('[data-line=ch-10] [data-column=verdict]').click()
  await page.locator('.row-panel').getByRole('link', { name: 'Find the fault' }).click()
  await expect(page).toHaveURL(/#1\/fault\/\/.*source=/)
  await page.locator('[data-symptom=hum]').click()
  await page.locator('[data-scope=one]').click()
  await expect(page.locator('.fault-step')).toBeVisible()
  await expect(page).toHaveURL(/#1\/fault\/hum\.one\/.*source=/)
})

test('so does a whole line, by a link that stays where it came', async ({ page }) => {
  await page.addInitScript(() => {
    const places = new Set<number>()
    Object.assign(window, { places })
    const look = () => {
      const link = document.querySelector('.find-fault a')
      if (link !== null) places.add(Math.round(link.getBoundingClientRect().top + scrollY))
      requestAnimationFrame(look)
    }
    look()
  })
  await open(page, '#1/whole-line/lead_length=9_m&box=passive')
  // What comes last to the answer.
  await expect(page.locator('.cures a').first()).toBeVisible()
  await expect(page.locator('.headline .term').first()).toBeVisible()
  const link = page.getByRole('link', { name: 'Find the fault on this line' })
  expect(await page.evaluate(() => [...(window as unknown as { places: Set<number> }).places])).toHaveLength(1)
  await link.click()
  await expect(page.locator('.fault-line summary')).toContainText('9 m')
  await page.locator('[data-symptom=dull]').click()
  await page.locator('[data-scope=one]').click()
  await expectOdds(page, fault({ values: { lead_length: '9 m', box: 'passive' }, symptom: 'dull', scope: 'one' }))
})

test('keys alone lead to the cause, and the focus is on each new step', async ({ page }) => {
  await open(page, '#1/fault')
  await page.locator('[data-symptom=hum]').focus()
  await page.keyboard.press('Enter')
  await expect(page.locator('#fault-scope')).toBeFocused()
  await page.locator('[data-scope=one]').focus()
  await page.keyboard.press('Enter')
  await expect(page.locator('#fault-do')).toBeFocused()
  const first = await page.locator('.fault-step').getAttribute('data-step')
  await page.keyboard.press('1')
  await expect(page.locator(`[data-done="${first}"]`)).toBeVisible()
  await expect(page.locator('.fault [data-focus]')).toBeFocused()
  // A digit that is typed is no answer.
  await page.locator('.fault-line summary').click()
  await page.locator('[data-field=lead_length] input').focus()
  await page.keyboard.press('1')
  await expect(page.locator('[data-done]')).toHaveCount(1)
})

test('the report is kept as text, as a link and on paper', async ({ page, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write'])
  await page.addInitScript(() => (window.print = () => dispatchEvent(new Event('beforeprint'))))
  await open(page, '#1/fault/hum.one?did=turn:changes,volume:gone')
  await expect(page.locator('.fault-found')).toBeVisible()
  const hash = new URL(page.url()).hash
  await page.getByRole('button', { name: 'Copy as text' }).click()
  const text = await page.evaluate(() => navigator.clipboard.readText())
  for (const piece of ['Heard: Hum. One channel.', 'Line: passive pickup', 'single-coil', '1. Turn the guitar', hash]) {
    expect(text).toContain(piece)
  }
  await page.getByRole('button', { name: 'Print', exact: true }).click()
  const paper = page.locator('#paper .fault-paper')
  await expect(paper).toContainText('single-coil')
  await expect(paper).toContainText('Turn the guitar')
  await page.evaluate(() => dispatchEvent(new Event('afterprint')))
  await expect(page.locator('#paper')).toHaveCount(0)
})

test('the plan fits the phone, and the paper lying or standing', async ({ page }) => {
  await page.addInitScript(() => (window.print = () => dispatchEvent(new Event('beforeprint'))))
  await open(page, '#1/fault/hum.one')
  await page.locator('.fault-chart > summary').click()
  await page.locator('.fault-chart select').selectOption('5')
  await page.getByRole('button', { name: 'Draw it' }).click()
  const wider = (tree: Element) => tree.scrollWidth - tree.clientWidth
  expect(await page.locator('.fault-tree').evaluate(wider)).toBe(0)
  await page.getByRole('button', { name: 'Print the plan' }).click()
  await page.emulateMedia({ media: 'print' })
  // A4 less its margins, in pixels.
  for (const width of [718, 1047]) {
    await page.setViewportSize({ width, height: 900 })
    expect(await page.locator('#paper .fault-tree').evaluate(wider), `${width}`).toBe(0)
  }
})

test('opens from the one file, without a network', async ({ page }) => {
  await open(page, '#1/fault/hum.one?did=volume:same', 'one file')
  const answer = fault({ symptom: 'hum', scope: 'one', answers: [{ step: 'volume', outcome: 'same' }] })
  await expectOdds(page, answer)
  await expect(step(page, next(answer).step)).toBeVisible()
})

for (const question of ['hum', 'buzz', 'trouble', 'dead channel', 'fault']) {
  test(`the search finds it by “${question}”`, async ({ page }) => {
    await open(page)
    await page.getByRole('searchbox').fill(question)
    await expect(page.locator('main a[href="#1/fault"]')).toBeVisible()
  })
}

/** The screens of the finder. */
const SCREENS: readonly (readonly [name: string, hash: string, shown: string])[] = [
  ['start', '#1/fault', '[data-symptom=thump]'],
  ['scope', '#1/fault/hum', '[data-scope=all]'],
  ['first step', '#1/fault/hum.one', '.fault-step .fault-outcomes button:last-child'],
  ['a step that plugs', '#1/fault/hum.one?now=source-end', '.fault-step .fault-outcomes button:last-child'],
  [
    'a computed step',
    '#1/fault/hum.one/source=output&power=earthed&box=passive?now=lift',
    '.fault-step .fault-outcomes button:last-child',
  ],
  ['found', '#1/fault/hum.one?did=turn:changes,volume:gone', '.fault-found'],
  ['slip', '#1/fault/hum.one?did=mute:same,source-end:gone,volume:gone', '.fault-slip'],
  ['danger', '#1/fault?danger', '.fault-stop'],
]

for (const theme of ['light', 'dark', 'stage'] as const) {
  test(`nothing that axe finds, on a phone, ${theme}`, async ({ page }) => {
    await open(page, '#1/fault')
    if (theme !== 'light') await setting(page, theme)
    for (const [name, hash, shown] of SCREENS) {
      await open(page, hash)
      await expect(page.locator(shown).first()).toBeVisible()
      await unfold(page)
      await layOut(page)
      const axe = new AxeBuilder({ page }).include('.fault')
      if (theme === 'light') axe.options({ rules: { 'target-size': { enabled: true } } })
      else axe.withRules('color-contrast')
      const { violations } = await axe.analyze()
      expect(
        violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]),
        name,
      ).toEqual([])
    }
  })
}

test('on a phone the buttons are in reach without scrolling', async ({ page }) => {
  for (const [name, hash, shown] of SCREENS) {
    // Else what is measured may be of the screen before.
    await page.goto('about:blank')
    await open(page, hash)
    const last = page.locator(shown).last()
    await expect(last).toBeVisible()
    const { bottom, height } = await last.evaluate(element => element.getBoundingClientRect())
    if (name !== 'found' && name !== 'slip') expect(bottom, name).toBeLessThanOrEqual(PHONE.height)
    if (name.includes('step')) expect(height, name).toBeGreaterThanOrEqual(44)
    expect(await page.evaluate(() => document.documentElement.scrollWidth), name).toBe(PHONE.width)
  }
})

test('at 400 % nothing scrolls two ways', async ({ page }) => {
  await page.setViewportSize({ width: 320, height: 256 })
  for (const [name, hash, shown] of SCREENS) {
    await open(page, hash)
    await expect(page.locator(shown).first()).toBeVisible()
    await unfold(page)
    expect(await page.evaluate(() => document.documentElement.scrollWidth), name).toBe(320)
  }
})
