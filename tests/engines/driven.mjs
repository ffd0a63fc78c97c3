// The two ways to drive a browser that is not the one of the other tests, with the
// few acts that a journey needs.

import { spawn } from 'node:child_process'
import puppeteer from 'puppeteer-core'
import { Builder, By, Capabilities } from 'selenium-webdriver'
import { noLoudspeaker } from './no-loudspeaker.mjs'
import { PATIENCE, until } from './until.mjs'

/** A tone for the microphone that Firefox makes up, Hz. */
export const TONE = 150

/** Firefox by WebDriver BiDi. */
export async function firefox() {
  const { environment, end } = await noLoudspeaker()
  const browser = await puppeteer
    .launch({
      browser: 'firefox',
      executablePath: process.env.STAGEOHM_FIREFOX,
      headless: true,
      env: { ...process.env, ...environment },
      extraPrefsFirefox: {
        'media.navigator.streams.fake': true,
        'media.navigator.audio.fake_frequency': TONE,
        'media.navigator.permission.disabled': true,
      },
    })
    .catch(error => {
      end()
      throw error
    })
  const page = await browser.newPage()
  await page.setViewport({ width: 400, height: 800 })
  const troubles = []
  let leaving = false
  page.on('pageerror', error => {
    // A load that ended because the page was left is no error of the page.
    const ended = leaving ? /NS_BINDING_ABORTED|A ServiceWorker intercepted/ : /NS_BINDING_ABORTED/
    if (!ended.test(String(error))) troubles.push(String(error))
  })
  const go = async way => {
    leaving = true
    await way()
    leaving = false
  }
  const inside = frame => ({
    read: selector => frame.$eval(selector, element => element.textContent).catch(() => null),
    value: selector => frame.$eval(selector, element => element.value).catch(() => null),
    click: selector => frame.$eval(selector, element => element.click()),
    // As a hand does: the browser lets sound start after nothing less.
    press: async selector => (await frame.$(selector)).click(),
    type: async (selector, text) => {
      const field = await frame.$(selector)
      await field.click({ count: 3 })
      await page.keyboard.press('Backspace')
      await field.type(text)
    },
    choose: async (selector, file) => (await frame.$(selector)).uploadFile(file),
  })
  return {
    name: await browser.version(),
    // What the page's policy refused, and errors that nothing caught.
    troubles,
    open: address => go(() => page.goto(address, { timeout: PATIENCE, waitUntil: 'load' })),
    again: () => go(() => page.reload({ timeout: PATIENCE })),
    evaluate: source => page.evaluate(source),
    frame: async index => {
      const frames = await page.$$('iframe')
      const frame = await frames[index]?.contentFrame()
      return frame === undefined || frame === null ? null : inside(frame)
    },
    out: () => undefined,
    ...inside(page),
    close: () => browser.close().finally(end),
  }
}

/** It has a microphone that it makes up, and asks nobody. */
const WEBKIT = [
  '--automation',
  '--enable-media-stream=true',
  '--enable-mock-capture-devices=true',
  '--features=-MockCaptureDevicesPrompt,-GetUserMediaRequiresFocus',
]

/** WebKit by WebDriver, in a small browser of its own that wants a screen. */
export async function webkit() {
  const port = 4600 + Math.floor(Math.random() * 300)
  const display = `:${port - 4500}`
  const screen = spawn('Xvfb', [display, '-screen', '0', '800x1000x24', '-nolisten', 'tcp'], { stdio: 'ignore' })
  const server = spawn('WebKitWebDriver', [`--port=${port}`], {
    stdio: 'ignore',
    env: { ...process.env, DISPLAY: display, LIBGL_ALWAYS_SOFTWARE: '1', WEBKIT_DISABLE_COMPOSITING_MODE: '1' },
  })
  const stop = () => [server, screen].forEach(one => one.kill())
  try {
    await until('the driver', () => fetch(`http://127.0.0.1:${port}/status`).then(answer => answer.ok))
    const wanted = new Capabilities({
      browserName: 'MiniBrowser',
      'webkitgtk:browserOptions': { binary: process.env.STAGEOHM_MINIBROWSER, args: WEBKIT },
    })
    const driver = await new Builder().usingServer(`http://127.0.0.1:${port}`).withCapabilities(wanted).build()
    await driver.manage().setTimeouts({ pageLoad: PATIENCE, script: PATIENCE })
    const version = (await driver.getCapabilities()).get('browserVersion')
    const find = selector => driver.findElement(By.css(selector))
    const acts = {
      read: selector => run(`return document.querySelector(${JSON.stringify(selector)})?.textContent ?? null`),
      value: selector => run(`return document.querySelector(${JSON.stringify(selector)})?.value ?? null`),
      click: selector => run(`document.querySelector(${JSON.stringify(selector)}).click()`),
      press: async selector => {
        const pressed = await find(selector)
        await driver.executeScript("arguments[0].scrollIntoView({ block: 'center' })", pressed)
        await pressed.click()
      },
      type: async (selector, text) => {
        const field = await find(selector)
        await field.clear()
        await field.sendKeys(text)
      },
      choose: (selector, file) => find(selector).sendKeys(file),
    }
    const run = source => driver.executeScript(source).catch(() => null)
    return {
      name: `WebKit ${version}`,
      // Its driver tells none.
      troubles: [],
      open: address => driver.get(address),
      again: () => driver.navigate().refresh(),
      evaluate: source => driver.executeScript(`return (${source})`),
      frame: async index => {
        await driver.switchTo().defaultContent()
        const there = await driver.executeScript(`return document.querySelectorAll('iframe').length > ${index}`)
        if (!there) return null
        await driver.switchTo().frame(index)
        return acts
      },
      out: () => driver.switchTo().defaultContent(),
      ...acts,
      close: () => driver.quit().finally(stop),
    }
  } catch (error) {
    stop()
    throw error
  }
}
