// The screens on which the tests for everyone look around.

import type { Page } from '@playwright/test'
import { descriptions } from './engine'
import { expect, layOut, open, unfold } from './page'

export const screens: [name: string, hash: string][] = [
  ['List', ''],
  ...descriptions().map(({ id, title }): [string, string] => [title, `#1/${id}`]),
  ['bad input', '#1/pickup/load_r=12_pigs'],
  ['two ways to read it', '#1/pickup/load_r=1,500'],
  ['held curves', '#1/pickup/load_r=1M/load_r=10k/load_r=140k/load_r=1M&lead_length=15_m'],
  ['backwards', '#1/pickup?want=peak:3_kHz&field=lead_length'],
  ['backwards in vain', '#1/pickup?want=peak:30_kHz&field=lead_length'],
  ['lost link', '#9/pickup/load_r=1M'],
  ['in a lesson', '#1/pickup?lesson&lock=load_r&hide=coil_l&show=working&theme=stage'],
  ['half a link', '#1/pickup/warp=9&load_r=10k'],
  ['tolerances', '#1/pickup?tol=usual&draws=100'],
  ['search', '#1/?find=jack'],
  ['lost entry', '#1/look-up/lost'],
  ['faces', '#1/look-up/xlr'],
  ['wiring', '#1/look-up/adaptor-two-outputs'],
  ['table', '#1/look-up/value-level'],
  ['term', '#1/look-up/term-ground-loop'],
  ['finder', '#1/fault'],
  ['finder, on its way', '#1/fault/hum.one?did=volume:same'],
  ['finder, at the cause', '#1/fault/hum.one?did=turn:changes,volume:gone'],
  ['finder, stop', '#1/fault?danger'],
  ['finder, lost link', '#1/fault/howl.one/loose'],
  ['lesson editor', '#1/lesson/levels?view=edit'],
]

/** Opens a screen with everything unfolded, its settings and its help too. */
export async function openWhole(page: Page, hash: string): Promise<void> {
  await open(page, hash)
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
  // What is to be edited is read first.
  if (hash.includes('view=edit')) await expect(page.locator('.edit-steps li')).not.toHaveCount(0)
  if (!hash.includes('lesson')) {
    await page.getByRole('button', { name: 'Settings' }).click()
  }
  await unfold(page)
  await layOut(page)
  const help = page.locator('button.help[aria-expanded=false]')
  if ((await help.count()) > 0) await help.first().click()
  if (hash.includes('tol=')) await expect(page.locator('.drawn')).toHaveAttribute('data-spread', 'true')
  const qr = page.getByRole('button', { name: 'QR code' })
  if ((await qr.count()) > 0) await qr.click()
  if (hash.includes('want=')) await expect(page.locator('.found')).toContainText(/value/i)
}
