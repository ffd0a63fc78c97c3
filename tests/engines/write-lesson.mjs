// A lesson of two steps is written, tried as a learner, and opened from its link.

import assert from 'node:assert/strict'
import { until } from './until.mjs'

const EDITOR = '#1/lesson/draft?view=edit'
const ALONG = '.edit-along'

/** The input that a form has under this name. */
function named(driven, name) {
  return until(name, async () => {
    const id = await driven.evaluate(
      `[...document.querySelectorAll('.edit-form label')].find(one => one.textContent === ${JSON.stringify(name)})?.htmlFor ?? null`,
    )
    return id === null ? null : `[id="${id}"]`
  })
}

/** Chooses in a list as a person does: the list tells the page of it. */
async function pick(driven, selector, value) {
  await until(`${value} in ${selector}`, () =>
    driven.evaluate(`[...document.querySelector('${selector}')?.options ?? []].some(one => one.value === '${value}')`),
  )
  await driven.evaluate(
    `(select => { select.value = '${value}'; select.dispatchEvent(new Event('change', { bubbles: true })) })(document.querySelector('${selector}'))`,
  )
}

/** Presses the button under a selector that says this. */
async function press(driven, within, text) {
  const buttons = `[...document.querySelectorAll('${within} button')]`
  const found = `${buttons}.find(one => one.textContent.trim() === ${JSON.stringify(text)})`
  await until(`the button ${text}`, () => driven.evaluate(`${found} !== undefined`))
  await driven.evaluate(`void ${found}.click()`)
}

async function addStep(driven, kind, title, count) {
  await pick(driven, '#edit-add', kind)
  const steps = () => driven.evaluate("document.querySelectorAll('.edit-steps li').length")
  await until(`${count} steps`, async () => (await steps()) === count)
  await driven.type(await named(driven, 'Title'), title)
}

export async function writeLesson(driven, address) {
  // Not with an editor that is open already.
  await driven.open('about:blank')
  await driven.open(`${address}${EDITOR}`)
  await driven.type(await named(driven, 'Title of the lesson'), 'Two steps')
  await pick(driven, await named(driven, 'Calculator'), 'levels')
  await addStep(driven, 'read', 'First this', 1)
  await driven.type(await named(driven, 'Text'), 'Listen.')
  await addStep(driven, 'number', 'Then that', 2)
  await pick(driven, await named(driven, 'Reading to ask for'), 'volts')
  await driven.evaluate(
    "void [...document.querySelectorAll('.edit-checks label')].find(one => one.textContent === 'Level').click()",
  )
  await until('nothing to check', async () => (await driven.read('.edit-flaws')) === null)

  await press(driven, ALONG, 'Try as a learner')
  await play(driven)
  const [link] = (await driven.evaluate('location.hash')).split('?')

  await driven.open('about:blank')
  await driven.open(`${address}${EDITOR}`)
  await until(
    'it is kept',
    async () => (await driven.value(await named(driven, 'Title of the lesson'))) === 'Two steps',
  )
  await press(driven, ALONG, 'Copy link')
  // Where the browser lets nobody copy, the link stands there.
  const along = `document.querySelector('${ALONG}')`
  const said = `${along}.querySelector('.by-hand textarea')?.value ?? ${along}.textContent`
  await until('the link is copied or shown', async () => {
    const told = await driven.evaluate(said)
    return told.includes('Copied.') || told.endsWith(link)
  })

  // Dealt anew, it is there with nothing answered.
  await driven.open('about:blank')
  await driven.open(`${address}${link}?seed=7&step=2`)
  await until('the lesson of the link', async () => (await driven.read('.lesson-step h2')) === 'Then that')
  assert.equal(await driven.value('.lesson-number input'), '')
}

async function play(driven) {
  await until('the lesson', async () => (await driven.read('.lesson h1')) === 'Two steps')
  assert.match(await driven.evaluate('location.hash'), /^#1\/lesson\/[\w-]{100,}\?/)
  assert.equal(await driven.read('.lesson-text'), 'Listen.')
  await driven.click('.lesson-next')
  await until('the second step', async () => (await driven.read('.lesson-step h2')) === 'Then that')
  assert.match(await driven.read('.lesson-given'), /Level.*dBu/)
  // 4 dBu is 1.228 V.
  await driven.type('.lesson-number input', '1.228 V')
  await driven.click('.lesson-commit input[value="3"]')
  await driven.click('#lesson-commit')
  await until('the verdict', async () =>
    driven.evaluate("document.querySelector('.lesson-judged')?.dataset.verdict === 'lesson-verdict-right'"),
  )
}
