// How a test brings a show onto the page.

import { readFileSync } from 'node:fs'
import type { Page } from '@playwright/test'
import { expect, open } from './page'

/** A show as its file has it: fields that say nothing are left out. */
export interface ShowFile {
  readonly lines: readonly Readonly<Record<string, unknown>>[]
  readonly [key: string]: unknown
}

/** The invented touring show of 32 lines. */
export const example = JSON.parse(
  readFileSync(new URL('../../crate/examples/show.json', import.meta.url), 'utf8'),
) as ShowFile

/** Opens a show from its file, at the input list. */
export async function openShow(page: Page, show: ShowFile = example): Promise<void> {
  await open(page, '#1/stage')
  const file = { name: 'show.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(show)) }
  await page.locator('.stage input[type=file]').first().setInputFiles(file)
  await expect(page.getByText(`Lines: ${show.lines.length}`)).toBeVisible()
}
