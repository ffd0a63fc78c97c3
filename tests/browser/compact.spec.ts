// The compact frame of a lesson: what its author opens, one answer and one plot in few
// pixels, and nothing of what is hidden anywhere.

import AxeBuilder from '@axe-core/playwright'
import { readFile } from 'node:fs/promises'
import type { Page } from '@playwright/test'
import { answer } from './engine'
import { expect, field, input, open, test, unfold } from './page'

/** What a frame may take at most, in pixels. */
const MOST = 700

const FRAMES = {
  pickup: '#1/pickup/load_r=140k&lead_length=6_m?lesson&open=load_r,lead_length',
  'source-load': '#1/source-load?lesson&open=source_r,load_r',
  'ground-loop': '#1/ground-loop?lesson&open=cause,connection',
  'box-or-straight': '#1/box-or-straight?lesson&open=lead_length,run_length',
}

for (const [name, hash] of Object.entries(FRAMES)) {
  test(`two open fields, one answer and one plot in few pixels: ${name}`, async ({ page }) => {
    for (const width of [320, 360, 600]) {
      await page.setViewportSize({ width, height: MOST })
      await page.goto('about:blank')
      await open(page, hash)
      await expect(page.locator('.field')).toHaveCount(2)
      await expect(page.locator('.answer .reading')).toHaveCount(1)
      const plots = answer(name, {}).report?.plots.length ?? 0
      await expect(page.locator('.plot svg')).toHaveCount(Math.min(plots, 1))
      const height = await page.locator('#page').evaluate(element => element.getBoundingClientRect().height)
      expect(height, `${width} wide`).toBeLessThanOrEqual(MOST)
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
      // What can hurt someone is in sight.
      const cautions = answer(name, {}).report?.cautions ?? []
      for (const text of cautions) {
        const [first = ''] = text.split('. ')
        await expect(page.locator('.cautions summary')).toContainText(first)
      }
    }
  })
}

test('what is open can be changed, what is locked is shown, and there is a way back', async ({ page }) => {
  await open(page, '#1/pickup/load_r=140k&lead_length=6_m?lesson&open=load_r&lock=lead_length')
  await expect(page.locator('.field')).toHaveCount(2)
  await expect(field(page, 'lead_length').locator('.locked')).toContainText('6')
  const lead = async (load_r: string) => {
    const [first] = answer('pickup', { load_r, lead_length: '6 m' }).report?.headline ?? []
    await expect(page.locator('.answer .lead bdi')).toHaveText(first?.text ?? '')
  }
  await lead('140k')
  await input(page, 'load_r').fill('10k')
  await lead('10k')
  await page.getByRole('button', { name: 'Reset to the lesson' }).click()
  await lead('140k')
  await expect(input(page, 'load_r')).toHaveValue('140k')
  await page.getByRole('button', { name: 'Undo' }).click()
  await expect(input(page, 'load_r')).toHaveValue('10k')
})

test('all else is folded: the working too, unless its author wants it seen', async ({ page }) => {
  await open(page, FRAMES.pickup)
  await expect(page.locator('.answer .lead')).toBeVisible()
  await expect(page.locator('.further, .working, .export, .held, .share, .ask:visible')).toHaveCount(0)
  await page.getByRole('heading', { name: 'More results' }).click()
  for (const { id, text } of answer('pickup', { load_r: '140k', lead_length: '6 m' }).report?.headline ?? [])
    await expect(page.locator(`.folded .headline [data-reading="${id}"] bdi`)).toHaveText(text)
  await expect(page.locator('.folded .further')).toBeVisible()
  await page.goto('about:blank')
  await open(page, `${FRAMES.pickup}&show=working`)
  await expect(page.locator('.working[open] [data-step]').first()).toBeVisible()
})

test('what is hidden is in no text, name, link, table, picture or print', async ({ page }) => {
  // Every field that is neither open nor locked holds a number that nothing else would say.
  const hidden = { coil_l: '3.217 H', coil_c: '173.4 pF', lead_length: '6.43 m' }
  const values = Object.entries({ ...hidden, load_r: '140k' }).map(([id, text]) => `${id}=${text.replace(' ', '_')}`)
  const numbers = ['3.217', '173.4', '6.43']
  await open(page, `#1/pickup/${values.join('&')}?lesson&open=load_r&show=working`)
  await expect(page.locator('.answer .lead')).toBeVisible()
  await unfold(page)
  const drawn = await page.locator('html').evaluate(html => html.outerHTML)
  for (const number of numbers) expect(drawn).not.toContain(number)
  await expect(page.locator('main a[href*="#1/"]')).toHaveCount(0)
  await expect(page.locator('[data-step]').first()).toBeVisible()
  await expect(page.locator('[data-step] .result')).toHaveCount(0)
  for (const name of ['Save all results as CSV', 'Save SVG', 'Save CSV']) {
    for (const button of await page.getByRole('button', { name, exact: true }).all()) {
      const waiting = page.waitForEvent('download')
      await button.click()
      const saved = await readFile(await (await waiting).path(), 'utf8')
      expect(saved.length).toBeGreaterThan(50)
      for (const text of [...numbers, 'Pickup inductance', 'Lead length']) expect(saved).not.toContain(text)
    }
  }
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')))
  await expect(page.locator('#paper')).toContainText('Load resistance')
  const paper = (await page.locator('#paper').textContent()) ?? ''
  for (const text of [...numbers, 'Pickup inductance', 'Lead length']) expect(paper).not.toContain(text)
})

test('a link that cannot be used does not tell it either', async ({ page }) => {
  for (const hash of [
    '#1/teleport/secret=4711?lesson&open=load_r',
    '#9/pickup/coil_l=4711?lesson&open=load_r',
    '#1/pickup/load_r=1M/load_r=2M/load_r=3M/load_r=4M/coil_l=4711?lesson&open=load_r',
  ]) {
    await page.goto('about:blank')
    await open(page, hash)
    await expect(page.getByRole('alert').first()).toBeVisible()
    expect(await page.locator('html').evaluate(html => html.outerHTML)).not.toContain('4711')
  }
  await page.goto('about:blank')
  await open(page, '#1/pickup?open=load_r')
  await expect(page.getByRole('alert')).toContainText('open=load_r')
})

test('a frame that opens or shows everything hides nothing', async ({ page }) => {
  const { fields } = answer('source-load', {})
  const [first, ...others] = Object.keys(fields)
  await open(page, `#1/source-load?lesson&open=${first}&lock=${others.join(',')}&show=working`)
  await expect(page.locator('[data-step] .result').first()).toBeVisible()
  await expect(page.getByRole('link', { name: 'Open in full' })).toBeVisible()
})

test('the panel hides what is not opened, and remembers what was chosen', async ({ page }) => {
  const panel = page.locator('.embed')
  const code = panel.locator('.code')
  const use = (name: string) => panel.getByRole('group', { name, exact: true })
  await open(page, '#1/pickup/load_r=140k')
  await panel.locator('summary').first().click()
  await expect(code).toContainText('?lesson&amp;open"')
  await expect(code).toContainText('height="700"')
  await expect(panel.getByRole('radio', { name: 'hidden', exact: true, checked: true })).not.toHaveCount(0)
  await expect(panel.getByRole('radio', { name: 'open', exact: true, checked: true })).toHaveCount(0)
  await use('Load resistance').getByRole('radio', { name: 'open' }).check()
  await use('Lead length').getByRole('radio', { name: 'shown' }).check()
  await expect(code).toContainText('?lesson&amp;open=load_r&amp;lock=lead_length"')
  await page.goto('about:blank')
  await open(page, '#1/pickup/load_r=10k')
  await panel.locator('summary').first().click()
  await expect(code).toContainText('load_r=10k?lesson&amp;open=load_r&amp;lock=lead_length"')
  // Another calculator has choices of its own.
  await page.goto('about:blank')
  await open(page, '#1/source-load')
  await panel.locator('summary').first().click()
  await expect(code).toContainText('?lesson&amp;open"')
})

test('the element makes the same frames by its attributes', async ({ page }) => {
  await open(page, '')
  const sources = await page.evaluate(async () => {
    const script = document.createElement('script')
    script.src = 'stageohm-element.js'
    await new Promise(done => {
      script.onload = done
      document.head.append(script)
    })
    return [
      { calculator: 'pickup', open: 'load_r', lock: 'coil_l' },
      { calculator: 'pickup', open: '' },
      { entry: 'lead-xlr', theme: 'dark' },
    ].map(given => {
      const element = document.createElement('stageohm-calculator')
      for (const [name, value] of Object.entries(given)) element.setAttribute(name, value)
      document.body.append(element)
      const { src = '', style } = element.querySelector('iframe') ?? {}
      element.remove()
      return [src.replace(/.*#/, '#'), style?.height]
    })
  })
  expect(sources).toEqual([
    ['#1/pickup/?lesson&open=load_r&lock=coil_l', '700px'],
    ['#1/pickup/?lesson&open', '700px'],
    ['#1/look-up/lead-xlr?lesson&theme=dark', '900px'],
  ])
})

test('an entry in a frame has itself and nothing around it', async ({ page }) => {
  await open(page, '#1/look-up/lead-xlr')
  await page.locator('.embed summary').click()
  await page.getByRole('group', { name: 'Theme' }).last().getByRole('radio', { name: 'dark' }).check()
  await expect(page.locator('.code')).toContainText('stageohm.html#1/look-up/lead-xlr?lesson&amp;theme=dark"')
  const waiting = page.waitForEvent('download')
  await page.locator('.wiring').getByRole('button', { name: 'Save SVG' }).click()
  const svg = await readFile(await (await waiting).path(), 'utf8')
  const read = await page.evaluate(text => {
    const { documentElement: root } = new DOMParser().parseFromString(text, 'image/svg+xml')
    const said = [...root.querySelectorAll('text')].map(({ textContent }) => textContent)
    return [root.localName, root.querySelector('title')?.textContent, said, root.querySelectorAll('[class]').length]
  }, svg)
  expect(read).toEqual([
    'svg',
    'XLR lead',
    expect.arrayContaining(['XLR lead', expect.stringMatching(/^Made with/)]),
    0,
  ])

  await page.goto('about:blank')
  await open(page, '#1/look-up/lead-xlr?lesson&theme=dark')
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('XLR lead')
  await expect(page.locator('.wiring svg')).toBeVisible()
  await expect(page.locator('html')).toHaveAttribute('data-theme', 'dark')
  await expect(page.locator('header, .share, .embed')).toHaveCount(0)
  await expect(page.getByRole('link', { name: 'Open in full' })).toHaveAttribute('href', /#1\/look-up\/lead-xlr$/)
  for (const strange of ['lesson&hide=x', 'theme=dark', 'lesson&theme=plaid']) {
    await page.goto('about:blank')
    await open(page, `#1/look-up/lead-xlr?${strange}`)
    await expect(page.getByRole('alert')).toContainText('cannot read this l')
  }
})

test('no fault that axe finds in either frame', async ({ page }) => {
  for (const hash of [`${FRAMES['ground-loop']}&lock=loop_length&theme=dark`, '#1/look-up/lead-xlr?lesson']) {
    await page.goto('about:blank')
    await page.setViewportSize({ width: 360, height: MOST })
    await open(page, hash)
    await expectClean(page)
    await unfold(page)
    await expectClean(page)
  }
  await page.goto('about:blank')
  await open(page, '#1/pickup')
  await page.locator('.embed summary').first().click()
  await unfold(page)
  await expectClean(page, '.embed')
})

async function expectClean(page: Page, part = 'body') {
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
  const { violations } = await new AxeBuilder({ page })
    .include(part)
    .exclude('[data-step]:nth-child(n + 4) math')
    .analyze()
  expect(violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)])).toEqual([])
}
