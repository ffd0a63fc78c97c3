// What a show leaves open, asked where its answer is missed: how a stage box is joined to
// its console, and whose circuit counts.

import { expect, test } from './page'
import { inventedShow, openShow } from './stage-open'

test('how a stage box is joined to its console is asked once, and one tap says it', async ({ page }) => {
  const show = inventedShow()
  await openShow(page, { ...show, links: (show.links ?? []).filter(({ id }) => id !== 'snake') }, 'map')
  const question = page.locator('.map-not-counted')
  await expect(question).toHaveCount(1)
  await expect(question).toContainText('Not counted: how Stage box and Front-of-house console are joined')
  await expect(question.getByRole('button')).toHaveCount(4)
  await question.getByRole('button', { name: 'unshielded network cable' }).click()
  await expect(question).toHaveCount(0)
  const done = page.locator('.map-answer .done-line')
  await expect(done).toContainText('Stage box to Front-of-house console, unshielded network cable')
  await done.getByRole('button', { name: 'Undo' }).click()
  await expect(question).toHaveCount(1)
  // The box has a supply: what a multicore picks up between two earths is no line's yet.
  await question.getByRole('button', { name: 'analogue multicore' }).click()
  await expect(question).toContainText('Not counted: what the multicore from Stage box')
  await question.getByRole('button', { name: 'Stage box is passive: no supply' }).click()
  await expect(question).toHaveCount(0)
  await page.locator('nav.views a[href$="#1/stage/power"]').click()
  const links = page.locator('[data-list="links"] [data-row]')
  await expect(links).toHaveCount(5)
  await links.last().locator('summary').click()
  await expect(links.last().getByLabel('Kind')).toHaveValue('audio')
})

test('a line says what its hum leaves out', async ({ page }) => {
  const show = inventedShow()
  await openShow(page, { ...show, links: [] })
  await page.locator('[role=row][data-line="ch-10"] [data-column="verdict"]').click()
  await expect(page.locator('.row-not-counted')).toContainText('Not counted: how Stage box')
  await page.locator('.row-not-counted a').click()
  await expect(page.locator('.map-not-counted')).toHaveCount(1)
})

test('with equipment chosen its circuit stands on the line', async ({ page }) => {
  const show = inventedShow()
  const bass = show.lines.find(({ id }) => id === 'ch-10')
  if (bass === undefined) throw new Error('there is no such line')
  bass.circuit = 'stage-left'
  await openShow(page, show)
  await page.locator('[role=row][data-line="ch-10"] [data-column="verdict"]').click()
  await expect(page.locator('[role=row][data-line="ch-10"] [data-column="circuit"]')).toContainText('Stage right')
  const panel = page.locator('.row-panel')
  const circuit = panel.getByLabel('Circuit', { exact: true })
  await expect(panel.locator('.problem')).toContainText(
    'Bass amplifier is on Stage right. The circuit set on this line is ignored',
  )
  await circuit.selectOption({ label: 'Stage right (from the equipment)' })
  await expect(panel.locator('.problem')).toHaveCount(0)
  await expect(circuit.locator('option')).toHaveCount(1)
  await panel.getByLabel('Equipment', { exact: true }).selectOption('')
  await expect(circuit.locator('option')).toHaveCount(5)
})
