// A lesson in a package for a learning system, and one that is answered there.

import { readFileSync } from 'node:fs'
import { expect, type FrameLocator, type Page } from '@playwright/test'
import { unzipSync } from 'fflate'
import { packed } from './lesson-sample'
import { HALF } from './lessons'
import { open } from './page'

/** Saves the package of the lesson in the page. */
export async function packageOf(
  page: Page,
  standard: string,
  lesson = HALF as { id: string },
): Promise<Map<string, Buffer>> {
  await open(page, packed(lesson, '?view=package'))
  const [saved] = await Promise.all([
    page.waitForEvent('download'),
    page.locator(`[data-standard="${standard}"]`).click(),
  ])
  expect(saved.suggestedFilename()).toMatch(new RegExp(`^stageohm-${lesson.id}-${standard}-[\\d-]+\\.zip$`))
  const files = unzipSync(readFileSync(await saved.path()))
  return new Map(Object.entries(files).map(([name, bytes]) => [name, Buffer.from(bytes)]))
}

/** Commits a number at the step on the screen. */
export async function answerNumber(lesson: FrameLocator | Page, text: string): Promise<void> {
  await lesson.getByRole('textbox').fill(text)
  await lesson.getByRole('radio', { name: 'fairly sure' }).check()
  await lesson.getByRole('button', { name: 'Commit' }).click()
  await expect(lesson.locator('[data-committed="true"]')).toBeVisible()
}

/** Commits the ways as they were dealt; that order, by the places of the ways in the lesson. */
export async function answerOrder(lesson: FrameLocator): Promise<number[]> {
  const ways = lesson.locator('[data-way]')
  await expect(ways).toHaveCount(3)
  const ids = await ways.evaluateAll(all => all.map(way => Number((way as HTMLElement).dataset['way'])))
  // What was dealt counts as said once a way was moved: so one goes on and back.
  await ways.first().getByRole('button').last().click()
  await ways.nth(1).getByRole('button').first().click()
  await lesson.getByRole('radio', { name: 'fairly sure' }).check()
  await lesson.getByRole('button', { name: 'Commit' }).click()
  await expect(lesson.locator('[data-committed="true"]')).toBeVisible()
  return ids
}
