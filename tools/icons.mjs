// Draws the icons of the installed page from the one drawing, by
// `node tools/icons.mjs`, after `./run test` has brought what it needs.

import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { chromium as browserType } from '@playwright/test'
import { root } from './folders.mjs'
import { chromium } from './system-programs.mjs'

const folder = join(root, 'www/icons')
const drawing = readFileSync(join(folder, 'icon.svg'), 'utf8')

const browser = await browserType.launch({ executablePath: chromium(), chromiumSandbox: process.getuid?.() !== 0 })
const page = await browser.newPage()
for (const size of [48, 180, 192, 512]) {
  await page.setViewportSize({ width: size, height: size })
  await page.setContent(`<style>body { margin: 0 } svg { display: block }</style>${drawing}`)
  await page.screenshot({ path: join(folder, `icon-${size}.png`) })
}
await browser.close()
