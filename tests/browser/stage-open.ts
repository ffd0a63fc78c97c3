// Shows for the tests of the stage.

import { readFileSync } from 'node:fs'
import type { Page } from '@playwright/test'
import type { Gear, InputLine, Show } from '../../www/generated/contract'
import { expect, open } from './page'
import type { Form } from './places'

/** What a file of a show may leave out. */
type Written<T> = Partial<T> & Pick<T, keyof T & 'id'>

/** A show as its file has it. */
export type ShowFile = Pick<Show, 'version' | 'name' | 'mains'> &
  Partial<Pick<Show, 'limits' | 'notes'>> & {
    readonly gear: Written<Gear>[]
    readonly power: Written<Show['power'][number]>[]
    readonly equipment: Written<Show['equipment'][number]>[]
    readonly links?: Written<Show['links'][number]>[]
    readonly lines: Written<InputLine>[]
  }

/** The invented show of 32 inputs, for each test anew. */
export function inventedShow(): ShowFile {
  return JSON.parse(readFileSync(new URL('../../crate/examples/show.json', import.meta.url), 'utf8')) as ShowFile
}

/** Opens a view of the stage with this show in it. */
export async function openShow(page: Page, show: ShowFile, view = '', form: Form = 'served'): Promise<void> {
  await open(page, '#1/stage', form)
  await page
    .locator('.stage input[type=file][accept*=json]')
    .first()
    .setInputFiles({ name: 'show.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(show)) })
  await expect(page.locator('.show-name')).toContainText(show.name)
  const address = view === '' ? '#1/stage' : `#1/stage/${view}`
  await page.locator(`nav.views a[href$="${address}"]`).click()
}
