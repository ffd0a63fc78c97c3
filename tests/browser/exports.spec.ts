// What people take along: pictures, numbers, formulas and single readings, each
// read back by something that is not the page.

import { readFile } from 'node:fs/promises'
import { PNG } from 'pngjs'
import type { Page } from '@playwright/test'
import { answer, headline } from './engine'
import { curves, expect, open, setting, test, unfold } from './page'
import { allForms } from './places'

test.use({ permissions: ['clipboard-read', 'clipboard-write'] })

for (const form of allForms) {
  test(`a plot as SVG and PNG, from the ${form} page`, async ({ page }) => {
    await open(page, '#1/pickup/load_r=1M/load_r=10k', form)
    await setting(page, 'stage')
    const drawn = [...(await curves(page)), ...(await curves(page, 1))]
    await unfold(page)
    const svg = await take(page, 'Save SVG')
    expect(svg.name).toMatch(/^stageohm-pickup-\w+-\d{4}-\d\d-\d\d\.svg$/)
    const text = svg.bytes.toString()
    const read = await page.evaluate(text => {
      const { documentElement: root } = new DOMParser().parseFromString(text, 'image/svg+xml')
      const paths = [...root.querySelectorAll('path')]
      return {
        name: root.localName,
        title: root.querySelector('title')?.textContent,
        described: (root.querySelector('desc')?.textContent ?? '').length,
        paths: paths.map(path => path.getAttribute('d')),
        strokes: paths.map(path => path.getAttribute('stroke') ?? path.parentElement?.getAttribute('stroke')),
        strange: root.querySelectorAll('script, foreignObject, [href], [style], [class]').length,
      }
    }, text)
    const rig = 'Pickup, lead and load. Lead length 5\u00a0m, Load resistance 1\u00a0MΩ'
    expect(read).toMatchObject({ name: 'svg', title: `Level over frequency. ${rig}`, strange: 0 })
    expect(read.described).toBeGreaterThan(20)
    // The picture has a size of its own, and the same points.
    const points = (paths: (string | null)[]) => paths.map(path => path?.match(/[ML]/g)?.length ?? 0)
    for (const count of points(drawn)) expect(points(read.paths)).toContain(count)
    for (const said of ['Level over frequency', ...rig.split('. ')]) expect(text).toContain(`>${said}</text>`)
    expect(text).toMatch(/>Made with Stageohm \d+\.\d+\.\d+</)
    // In the colours of paper, whatever the screen shows.
    expect(read.strokes).toContain('rgb(138, 58, 0)')
    expect(text).not.toMatch(/url\((?!["']?#)|https?:(?!\/\/www\.w3\.org)/)

    const png = await take(page, 'Save PNG')
    const { width, height, data } = PNG.sync.read(png.bytes)
    // As large on every screen: 800 pixels and a margin, two for one.
    expect(width).toBe(1632)
    expect(height).toBeGreaterThan(700)
    expect([...data.subarray(0, 4)]).toEqual([255, 255, 255, 255])
    const inked = Array.from({ length: width * height }, (_, index) => index * 4).filter(at =>
      [138, 58, 0].every((part, channel) => Math.abs((data[at + channel] ?? 0) - part) < 8),
    )
    expect(inked.length).toBeGreaterThan(width)
    await expect(page.locator('html')).toHaveAttribute('data-theme', 'stage')
  })
}

for (const [name, between, decimal] of [
  ['1.5 point', ',', '.'],
  ['1,5 comma', ';', ','],
] as const) {
  test(`the numbers of a plot as CSV, ${name}`, async ({ page }) => {
    await open(page, '#1/pickup')
    await setting(page, name)
    await unfold(page)
    const { bytes } = await take(page, 'Save CSV')
    const [head, ...rows] = bytes.toString().split('\r\n').slice(0, -1)
    expect(head).toContain('Frequency (Hz)')
    expect(head).toContain('(dB)')
    const [plot] = answer('pickup').report?.plots ?? []
    const number = (text = '') => Number(text.replace(decimal, '.'))
    expect(rows).toHaveLength(plot?.traces[0]?.x.length ?? 0)
    rows.forEach((row, index) => {
      const cells = row.split(between)
      expect(number(cells[0])).toBeCloseTo(plot?.traces[0]?.x[index] ?? NaN, 3)
      plot?.traces.forEach((trace, at) => expect(number(cells[at + 1])).toBeCloseTo(trace.y[index] ?? NaN, 6))
    })
  })
}

test('all readings and a table that is looked up, as CSV', async ({ page }) => {
  await open(page, '#1/pickup')
  const readings = (await take(page, 'Save all results as CSV')).bytes.toString()
  const { report } = answer('pickup')
  const all = [...(report?.headline ?? []), ...(report?.further ?? [])]
  const lines = readings.split('\r\n')
  expect(lines[0]).toBe('\ufeffResult,Value,Unit,Verdict')
  const { fields } = answer('pickup')
  expect(lines).toHaveLength(Object.values(fields).filter(({ active }) => active).length + all.length + 2)
  expect(lines[1]).toBe('Pickup inductance,2.5,H,')
  for (const { name, exact, value } of all.filter(({ name }) => !name.includes(','))) {
    const [, number = '', unit = ''] =
      lines.find(line => line.startsWith(`${name.replaceAll('\u00a0', ' ')},`))?.split(',') ?? []
    // A number is one for a spreadsheet too, with a hyphen for its sign and the digits of the working.
    if (value !== null) expect(`${number} ${unit}`.trim()).toBe(exact?.replace('−', '-').replaceAll('\u00a0', ' '))
  }

  await open(page, '#1/look-up/value-level')
  const rows = await page.locator('table.looked-up tr').count()
  const table = (await take(page, 'Save CSV')).bytes.toString()
  expect(table.trimEnd().split('\r\n')).toHaveLength(rows)
  // +4 dBu is √0.6 V · 10^(4/20) (IEC 60027-3), shown to three figures.
  await expect(page.locator('table.looked-up')).toContainText('1.23\u00a0V')
  expect(table).toContain('1.22765 V')
})

test('readings as CSV have what was put in, and a column for each held set, in the unit of its row', async ({
  page,
}) => {
  await open(page, '#1/pickup/load_r=1M/load_r=10k/load_r=140k&lead_length=12_m')
  const lines = (await take(page, 'Save all results as CSV')).bytes
    .toString()
    .split('\r\n')
    .map(line => line.replaceAll('"', ''))
  expect(lines[0]).toMatch(
    /^\ufeffResult,Value,Unit,Verdict,Load resistance 10 kΩ,Lead length 12 m, Load resistance 140 kΩ$/,
  )
  // 10 kΩ and 140 kΩ are 0.01 MΩ and 0.14 MΩ.
  expect(lines).toContain('Load resistance,1,MΩ,,0.01,0.14')
  expect(lines).toContain('Lead length,5,m,,5,12')
  // A reading is that which the engine gives for each set.
  const level = [{ load_r: '1M' }, { load_r: '10k' }, { load_r: '140k', lead_length: '12 m' }].map(values =>
    answer('pickup', values).report?.further.find(({ id }) => id === 'level_at'),
  )
  const [own, ...others] = level.map(reading => reading?.exact?.replaceAll('\u00a0', ' ').replace('−', '-') ?? '')
  const [number, unit] = own?.split(' ') ?? []
  const numbers = others.map(text => text.split(' ')[0])
  expect(others.every(text => text.endsWith(unit ?? '?'))).toBe(true)
  expect(lines).toContain(`${level[0]?.name.replaceAll('\u00a0', ' ')},${number},${unit},,${numbers.join(',')}`)
})

test('a loss is negative in a row of gains, and the other way round', async ({ page }) => {
  const row = async (hash: string, name: string) => {
    await open(page, hash)
    const text = (await take(page, 'Save all results as CSV')).bytes.toString()
    const line = text.split('\r\n').find(line => line.startsWith(`"${name}`) || line.startsWith(name)) ?? ''
    return line
      .replace(/^"[^"]*"/, '')
      .split(',')
      .filter((_, index) => index === 1 || index > 3)
      .map(Number)
  }
  const value = (load_r: string) =>
    answer('pickup', { load_r }).report?.headline.find(({ id }) => id === 'tone_loss')?.value ?? NaN
  const [bright = NaN, dull = NaN] = [value('1M'), value('10k')]
  expect(bright).toBeLessThan(0)
  const gains = await row('#1/pickup/load_r=1M/load_r=10k', 'Treble gained at')
  expect(gains[0]).toBeCloseTo(-bright, 3)
  expect(gains[1]).toBeCloseTo(-dull, 3)
  const losses = await row('#1/pickup/load_r=10k/load_r=1M', 'Treble lost at')
  expect(losses[0]).toBeCloseTo(dull, 3)
  expect(losses[1]).toBeCloseTo(bright, 3)
})

test('a picture with its link, for pages that allow neither scripts nor frames', async ({ page }) => {
  await open(page, '#1/pickup/load_r=140k')
  await unfold(page)
  await page.getByRole('button', { name: 'Copy picture for a web page' }).first().click()
  await expect(page.locator('.export').first()).toContainText('Copied')
  const code = await page.evaluate(() => navigator.clipboard.readText())
  const url = page.url()
  const reader = await page.context().newPage()
  await reader.setContent(code)
  const image = reader.locator('figure img')
  await expect(image).toHaveAttribute('alt', /Level over frequency/)
  expect(
    await image.evaluate((image: HTMLImageElement) => image.decode().then(() => image.naturalWidth)),
  ).toBeGreaterThan(200)
  await expect(reader.locator('figcaption a')).toHaveAttribute('href', url)
  expect(code).not.toContain('<script')
})

test('a picture from a lesson that hides something has no link that would tell', async ({ page }) => {
  await open(page, '#1/pickup/load_r=140k?lesson&hide=load_r')
  await unfold(page)
  await page.getByRole('button', { name: 'Copy picture for a web page' }).first().click()
  await expect(page.locator('.export').first()).toContainText('Copied')
  const code = await page.evaluate(() => navigator.clipboard.readText())
  expect(code).toContain('<figcaption>Level over frequency. Pickup, lead and load')
  // A percent sign of a text stands for itself.
  expect(decodeURIComponent(code.replace(/%(?![\da-f]{2})/gi, '%25'))).not.toMatch(/140[\u00a0 ]?k/)
})

test('a formula as MathML', async ({ page }) => {
  await open(page, '#1/source-load')
  await unfold(page)
  await page.getByRole('button', { name: 'Copy MathML' }).first().click()
  await expect(page.locator('[data-step]').first()).toContainText('Copied')
  const mathml = await page.evaluate(() => navigator.clipboard.readText())
  const [root, broken, rows] = await page.evaluate(text => {
    const read = new DOMParser().parseFromString(text, 'application/xml')
    return [
      read.documentElement.localName,
      read.querySelector('parsererror') !== null,
      read.querySelectorAll('mtr').length,
    ]
  }, mathml)
  expect([root, broken, rows]).toEqual(['math', false, 3])
  // Formula, the same with numbers, and what that comes to.
  const { result } = answer('source-load', {}, { working: true }).report?.working[0] ?? {}
  expect(mathml).toContain(`<mtext>${result}</mtext></mtd></mtr></mtable>`)
})

test('any reading, by a click and by keys', async ({ page }) => {
  await open(page, '#1/pickup')
  const copied = () => page.evaluate(() => navigator.clipboard.readText())
  const { report } = answer('pickup')
  const [first] = headline(answer('pickup'))
  await page.locator('.answer .copy-value').first().click()
  await expect(page.locator('.answer .copied').first()).toHaveText('Copied.')
  // More digits than are shown: those of the working.
  expect(first?.exact?.length).toBeGreaterThan(first?.text.length ?? NaN)
  expect(await copied()).toBe(first?.exact?.replaceAll('\u00a0', ' '))
  const further = report?.further.find(({ value }) => value !== null)
  await page.locator(`[data-reading="${further?.id}"] .copy-value`).focus()
  await page.keyboard.press('Enter')
  await expect.poll(copied).toBe(further?.exact?.replaceAll('\u00a0', ' '))
})

async function take(page: Page, name: string): Promise<{ name: string; bytes: Buffer }> {
  const waiting = page.waitForEvent('download')
  await page.getByRole('button', { name, exact: true }).first().click()
  const got = await waiting
  return { name: got.suggestedFilename(), bytes: await readFile(await got.path()) }
}
