// Packages by cmi5, with a record store that takes what the standard asks for, in its order alone.

import { expect, test } from '@playwright/test'
import { answerNumber, answerOrder, packageOf } from './lesson-in-package'
import { ORDERED, TOLD, UNANSWERABLE } from './lessons'
import { nameOf, RecordStore } from './record-store'

test('an attempt in two sessions says what it has to, once, and in order', async ({ page }) => {
  const store = new RecordStore(await packageOf(page, 'cmi5'))
  await store.start()
  await page.goto(store.launch())
  const lesson = page.frameLocator('iframe')
  const give = (text: string) => answerNumber(lesson, text)
  await lesson.getByRole('button', { name: 'Next' }).click()
  await give('6 dB')
  const verbs = () => store.statements.map(({ verb }) => nameOf(verb))
  await expect.poll(verbs).toEqual(['initialized', 'answered'])
  expect(store.statements[1]?.result?.response).toBe('6')
  // Full credit is given within 0.5 dB of 6.0206 dB.
  const { interactionType, correctResponsesPattern } = store.statements[1]?.object.definition ?? {}
  expect(interactionType).toBe('numeric')
  const ends = `${correctResponsesPattern}`.split('[:]').map(Number)
  expect(ends).toEqual([expect.closeTo(5.5206, 4), expect.closeTo(6.5206, 4)])
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
  await answerNumber(lesson, '6 dB')
  await page.goto('about:blank')
  await expect.poll(() => store.statements.map(({ verb }) => nameOf(verb))).toEqual(['initialized', 'terminated'])
  expect(store.refused).toEqual([])
  await store.stop()
})

test('ways in an order are sequencing, with what each is', async ({ page }) => {
  const store = new RecordStore(await packageOf(page, 'cmi5', ORDERED))
  await store.start()
  await page.goto(store.launch())
  const ids = await answerOrder(page.frameLocator('iframe'))
  await expect.poll(() => store.statements.length).toBeGreaterThan(1)
  const { object, result } = store.statements[1] ?? {}
  expect(object?.definition).toMatchObject({
    interactionType: 'sequencing',
    correctResponsesPattern: ['1[,]0[,]2'],
    choices: ORDERED.steps[0]?.ways.map(({ name }, at) => ({ id: `${at}`, description: { en: name } })),
  })
  // In the language of the lesson.
  expect(object?.definition).toMatchObject({ name: { en: 'Which loses least?' } })
  expect(result?.response).toBe(ids.join('[,]'))
  expect(store.refused).toEqual([])
  await store.stop()
})

test('at the end the learner goes back to where the learning system says', async ({ page }) => {
  const store = new RecordStore(await packageOf(page, 'cmi5', ORDERED))
  await store.start()
  store.returnURL = store.place('courses?of=one&back')
  await page.goto(store.launch())
  const lesson = page.frameLocator('iframe')
  const back = lesson.getByRole('button', { name: 'Back to the learning system' })
  await answerOrder(lesson)
  await expect(back).toHaveCount(0)
  await lesson.getByRole('button', { name: 'Result', exact: true }).click()
  await expect(back).toHaveCount(1)
  // It would not be so here.
  await expect(lesson.getByText('Nothing is sent')).toHaveCount(0)
  await back.click()
  await expect(page).toHaveURL(store.returnURL)
  await expect(page.getByRole('heading', { name: 'Your courses' })).toBeVisible()
  const verbs = store.statements.map(({ verb }) => nameOf(verb).replace(/passed|failed/, 'judged'))
  expect(verbs).toEqual(['initialized', 'answered', 'completed', 'judged', 'terminated'])
  // A page that goes says nothing more, nor is anything refused.
  await page.goto('about:blank')
  expect(store.statements.filter(({ verb }) => nameOf(verb) === 'terminated')).toHaveLength(1)
  expect(store.refused).toEqual([])
  await store.stop()
})

test('what was not taken is offered again before the learner goes back', async ({ page }) => {
  const store = new RecordStore(await packageOf(page, 'cmi5', ORDERED))
  await store.start()
  store.returnURL = store.place('courses')
  await page.goto(store.launch())
  const lesson = page.frameLocator('iframe')
  await expect.poll(() => store.statements.length).toBe(1)
  store.isFull = true
  await answerOrder(lesson)
  await expect(lesson.getByText('did not take your answers')).toBeVisible()
  await lesson.getByRole('button', { name: 'Result', exact: true }).click()
  store.isFull = false
  await lesson.getByRole('button', { name: 'Back to the learning system' }).click()
  await expect(page).toHaveURL(store.returnURL)
  const verbs = store.statements.map(({ verb }) => nameOf(verb).replace(/passed|failed/, 'judged'))
  expect(verbs).toEqual(['initialized', 'answered', 'completed', 'judged', 'terminated'])
  await store.stop()
})

test('of a finished run another one changes nothing', async ({ page }) => {
  const store = new RecordStore(await packageOf(page, 'cmi5', ORDERED))
  await store.start()
  await page.goto(store.launch())
  const lesson = page.frameLocator('iframe')
  await answerOrder(lesson)
  const verbs = () => store.statements.map(({ verb }) => nameOf(verb).replace(/passed|failed/, 'judged'))
  await expect.poll(verbs).toEqual(['initialized', 'answered', 'completed', 'judged'])
  await lesson.getByRole('button', { name: 'Result', exact: true }).click()
  await lesson.getByRole('button', { name: 'Again with other values' }).click()
  await expect(lesson.getByText('This run does not count: the learning system has your first one.')).toBeVisible()
  await answerOrder(lesson)
  await page.goto('about:blank')
  await expect.poll(verbs).toEqual(['initialized', 'answered', 'completed', 'judged', 'terminated'])
  await page.goto(store.launch())
  await expect(lesson.getByText('The learning system has your result')).toBeVisible()
  await expect(lesson.locator('[data-committed="true"]')).toBeVisible()
  await page.goto('about:blank')
  await expect.poll(verbs).toEqual(['initialized', 'terminated'])
  expect(store.refused).toEqual([])
  await store.stop()
})

test('beside an unfinished run another one is practice, and the first can be finished as it is', async ({ page }) => {
  const store = new RecordStore(await packageOf(page, 'cmi5'))
  await store.start()
  await page.goto(store.launch())
  const lesson = page.frameLocator('iframe')
  const goOn = () => lesson.locator('.lesson-next').click()
  await goOn()
  await answerNumber(lesson, '6 dB')
  await goOn()
  await goOn()
  await lesson.getByRole('button', { name: 'Again with other values' }).click()
  await expect(lesson.getByText('This run is practice')).toBeVisible()
  await goOn()
  await answerNumber(lesson, '40 dB')
  await lesson.getByRole('button', { name: 'Back to the run that counts' }).click()
  await lesson.getByRole('button', { name: 'Finish here: 1 step counts as not answered' }).click()
  const verbs = () => store.statements.map(({ verb }) => nameOf(verb))
  await expect.poll(verbs).toEqual(['initialized', 'answered', 'completed', 'passed'])
  expect(store.statements.map(({ result }) => result?.response ?? null)).toEqual([null, '6', null, null])
  expect(store.statements[3]?.result?.score?.scaled).toBe(0.5)
  expect(store.refused).toEqual([])
  await store.stop()
})

test('where there are no points nobody passes or fails', async ({ page }) => {
  const store = new RecordStore(await packageOf(page, 'cmi5', UNANSWERABLE))
  await store.start()
  await page.goto(store.launch())
  await answerNumber(page.frameLocator('iframe'), '6 dB')
  await expect.poll(() => store.statements.map(({ verb }) => nameOf(verb)).at(-1)).toBe('completed')
  expect(store.statements[1]?.result).toMatchObject({ response: '6 dB' })
  expect(store.statements[1]?.result?.success).toBeUndefined()
  await page.goto('about:blank')
  const verbs = () => store.statements.map(({ verb }) => nameOf(verb))
  await expect.poll(verbs).toEqual(['initialized', 'answered', 'completed', 'terminated'])
  expect(store.refused).toEqual([])
  await store.stop()
})

test('what asks nothing is completed at its last step', async ({ page }) => {
  const store = new RecordStore(await packageOf(page, 'cmi5', TOLD))
  await store.start()
  const verbs = () => store.statements.map(({ verb }) => nameOf(verb))
  await page.goto(store.launch())
  const lesson = page.frameLocator('iframe')
  await expect(lesson.getByText('go to the learning system that opened this lesson')).toBeVisible()
  await page.goto('about:blank')
  await expect.poll(verbs).toEqual(['initialized', 'terminated'])
  await page.goto(store.launch())
  await lesson.getByRole('button', { name: 'Next' }).click()
  await expect.poll(verbs).toEqual(['initialized', 'completed'])
  expect(store.refused).toEqual([])
  await store.stop()
})

test('a first refusal is told and tried again', async ({ page }) => {
  const store = new RecordStore(await packageOf(page, 'cmi5', ORDERED))
  await store.start()
  store.isFull = true
  await page.goto(store.launch())
  const lesson = page.frameLocator('iframe')
  await answerOrder(lesson)
  await expect(lesson.getByText('did not take your answers')).toBeVisible()
  store.isFull = false
  await expect(lesson.getByText('did not take your answers')).toBeHidden()
  const verbs = store.statements.map(({ verb }) => nameOf(verb).replace(/passed|failed/, 'judged'))
  expect(verbs).toEqual(['initialized', 'answered', 'completed', 'judged'])
  expect(store.refused).toEqual([])
  await store.stop()
})

test('what is answered before the system begins is told once it does, beside no earlier run', async ({ page }) => {
  const store = new RecordStore(await packageOf(page, 'cmi5'))
  await store.start()
  store.isDown = true
  await page.goto(store.launch())
  const lesson = page.frameLocator('iframe')
  await expect(lesson.getByText('has not been reached yet')).toBeVisible()
  await lesson.getByRole('button', { name: 'Next' }).click()
  await answerNumber(lesson, '6 dB')
  store.isDown = false
  const verbs = () => store.statements.map(({ verb }) => nameOf(verb))
  await expect.poll(verbs).toEqual(['initialized', 'answered'])
  await page.goto('about:blank')
  await expect.poll(verbs).toEqual(['initialized', 'answered', 'terminated'])
  // The next time there is an earlier run, which is found late: that one counts.
  store.isDown = true
  await page.goto(store.launch())
  await expect(lesson.getByText('has not been reached yet')).toBeVisible()
  await lesson.getByRole('button', { name: 'Next' }).click()
  await answerNumber(lesson, '40 dB')
  store.isDown = false
  await expect(lesson.getByText('This run is practice')).toBeVisible()
  await lesson.getByRole('button', { name: 'Back to the run that counts' }).click()
  await expect(lesson.getByText('2 of 4 points').first()).toBeVisible()
  await page.goto('about:blank')
  await expect.poll(verbs).toEqual(['initialized', 'terminated'])
  expect(store.refused).toEqual([])
  await store.stop()
})

for (const returnURL of [null, 'javascript:document.title="taken"', 'data:text/html,taken', '/courses', '']) {
  test(`there is no way back to ${returnURL ?? 'nowhere'}`, async ({ page }) => {
    const store = new RecordStore(await packageOf(page, 'cmi5', ORDERED))
    await store.start()
    store.returnURL = returnURL
    await page.goto(store.launch())
    const lesson = page.frameLocator('iframe')
    await answerOrder(lesson)
    await lesson.getByRole('button', { name: 'Result', exact: true }).click()
    await expect(lesson.getByRole('heading', { name: 'Your result' })).toBeVisible()
    await expect(lesson.getByRole('button', { name: 'Back to the learning system' })).toHaveCount(0)
    await store.stop()
  })
}
