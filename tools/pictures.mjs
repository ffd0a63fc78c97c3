// Pictures of a phone and of a lesson, taken from the page as it is.

import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { build } from './build.mjs'
import { say } from './command.mjs'
import { root } from './folders.mjs'
import { setUpBuild, setUpTests } from './setup.mjs'
import { chromium } from './system-programs.mjs'

const folder = join(root, 'pictures')

/** What is shown, and when it is there. */
const shots = [
  {
    name: 'phone',
    address: '#1/box-or-straight/source=bass&lead_length=6_m&run_length=30_m',
    there: '.answer .headline',
    options: { viewport: { width: 360, height: 740 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true },
  },
  {
    name: 'lesson',
    address: 'lesson.html',
    there: 'stageohm-calculator',
    options: { viewport: { width: 900, height: 1180 } },
  },
]

export async function pictures() {
  setUpBuild()
  setUpTests()
  build()
  // Only here, since the set-up has just brought what they are made of.
  const { chromium: browserType } = await import('@playwright/test')
  const { host } = await import('./host.mjs')
  mkdirSync(folder, { recursive: true })
  const address = await host(0, '/')
  const browser = await browserType.launch({
    executablePath: chromium(),
    chromiumSandbox: process.getuid?.() !== 0,
  })
  try {
    for (const { name, address: where, there, options } of shots) {
      const page = await browser.newPage(options)
      await page.goto(address + where)
      await page.waitForSelector(there)
      for (const frame of page.frames().slice(1)) await frame.waitForSelector('.answer .headline')
      await page.evaluate(() => document.fonts.ready)
      const path = join(folder, `${name}.png`)
      await page.screenshot({ path, animations: 'disabled' })
      say(path)
      await page.close()
    }
  } finally {
    await browser.close()
  }
  process.exit()
}
