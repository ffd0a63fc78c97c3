// The page as one file that needs no host and no network. What the page beside
// its files finds by the `href` of a link, it finds here as text in the element
// of the same id:
//
//   beside its files                       in the one file
//   <link id="engine-wasm" href="….wasm">  <script id="engine-wasm" type="application/wasm"
//                                            data-encoding="gzip">Base64</script>
//   <link id="hear-wasm" href="….wasm">    the same
//   <link id="engine-words" href="….ftl">  the same as text/plain; other words too
//   <link id="worker-source" href="….js">  <script id="worker-source" type="text/plain">
//                                            the glue, then the worker's script</script>
//   <link id="more-source" href="….js">    <script id="more-source" type="text/plain"
//                                            data-encoding="gzip">Base64</script>
//   <link id="hear-glue" href="….js">      the same, and the source of each piece that
//                                            comes late (see late.mjs)
//   <script id="main-script" src="….js">   <script id="main-script" …>, packed in the same way,
//                                            and a script that runs it
//   <script id="engine-glue" src="….js">   <script>the glue</script>
//
// so the glue, which the worker has to load beside the files, is already in its
// source here. A block of data says what a page that somebody saves begins with.

import { createHash } from 'node:crypto'
import { readFileSync, writeFileSync } from 'node:fs'
import { extname, join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { generated } from './folders.mjs'
import { parts, screens } from './late.mjs'
import { ENGLISH, wordsIn } from './page-words.mjs'
import { FIRST } from './place-engines.mjs'

/** It has to travel by mail and on old sticks. */
const LIMIT = 1_500_000

/** Writes the one file of a language beside the files of the page that it is made of. */
export function writeOneFile(page, folder, language) {
  const html = page.querySelector('html')
  for (const name of ['lang', 'data-languages']) html.setAttribute(name, language)
  const read = address => readFileSync(join(folder, address))
  const textOf = address => read(address).toString().trim()
  const take = selector => {
    const element = page.querySelector(selector)
    element.remove()
    return element.getAttribute('href') ?? element.getAttribute('src')
  }

  // It has a policy of its own.
  page.querySelector('#policy').remove()
  // One file cannot be installed: it needs not be.
  page.querySelectorAll('link[rel=manifest], link[rel=apple-touch-icon]').forEach(link => link.remove())
  // A picture: one of lines and shapes would be drawn anew for every change of the address.
  const icon = page.querySelector('link[rel=icon]')
  icon.setAttribute('href', `data:image/png;base64,${read(icon.getAttribute('href')).toString('base64')}`)
  const styles = page.querySelectorAll('link[rel=stylesheet]').map(link => {
    const style = textOf(link.getAttribute('href'))
    link.replaceWith(`<style media="${link.getAttribute('media') ?? 'all'}">${style}</style>`)
    return style
  })
  page.querySelectorAll(`link[id^=${FIRST}]`).forEach(link => link.remove())
  const engines = ['engine-wasm', 'hear-wasm'].map(id => [id, packed(read(take(`#${id}`)))])
  const words = ['page', ...screens, 'engine']
    .map(name => `${name}-words`)
    .map(id => [id, packed(wordsIn(`${id}${extname(take(`#${id}`))}`, language))])
  const glue = textOf(take('#engine-glue'))
  const worker = inScript(`${glue}\n${textOf(take('#worker-source'))}`)
  const late = [...parts, 'hear-glue'].map(id => [id, inScript(textOf(take(`#${id}`)))])
  const [early, boot] = ['#early', '#boot'].map(script => inScript(textOf(take(script))))
  const main = inScript(textOf(take('#main-script')))
  const scripts = [glue, readFileSync(join(generated, 'unpack.js'), 'utf8').trim()].map(inScript)

  page
    .querySelector('meta[charset]')
    .insertAdjacentHTML(
      'afterend',
      policy([early, boot, main, ...scripts, ...late.map(([, script]) => script)], styles) +
        `<script>${early}</script>`,
    )
  page.querySelector('#start').insertAdjacentHTML('afterend', `<script>${boot}</script>`)
  page
    .querySelector('#page')
    .insertAdjacentHTML(
      'afterend',
      [
        '<script id="beginning" type="application/json">{}</script>',
        ...engines.map(
          ([id, engine]) => `<script id="${id}" type="application/wasm" data-encoding="gzip">${engine}</script>`,
        ),
        ...words.map(([id, said]) => `<script id="${id}" type="text/plain" data-encoding="gzip">${said}</script>`),
        `<script id="worker-source" type="text/plain">${worker}</script>`,
        ...late.map(
          ([id, script]) => `<script id="${id}" type="text/plain" data-encoding="gzip">${packed(script)}</script>`,
        ),
        `<script id="main-script" type="text/plain" data-encoding="gzip">${packed(main)}</script>`,
        ...scripts.map(script => `<script>${script}</script>`),
      ].join('\n'),
    )

  const text = page.toString()
  if (/\s(src|href)=["']?\.?\//.test(text)) throw new Error('the one file still links to another')
  writeLimited(join(folder, nameOf(language)), text)
}

function writeLimited(file, text) {
  const size = Buffer.byteLength(text)
  if (size > LIMIT) throw new Error(`the one file has ${size} bytes, and may have ${LIMIT}`)
  writeFileSync(file, text)
}

/** That of a language. */
function nameOf(language) {
  return language === ENGLISH ? 'stageohm.html' : `stageohm-${language}.html`
}

function packed(content) {
  return gzipSync(content, { level: 9 }).toString('base64')
}

/** Nothing in a script may look like its end to the parser of the page. */
export function inScript(script) {
  return script.replace(/<(?=\/script|!--)/gi, '\\x3c')
}

/** A script or style that a policy lets stand in the page. */
export function hash(text) {
  return `'sha256-${createHash('sha256').update(text).digest('base64')}'`
}

/** The one file loads nothing at all, and has the browser see to it. */
function policy(scripts, styles) {
  const rules = [
    "default-src 'none'",
    `script-src 'wasm-unsafe-eval' ${scripts.map(hash).join(' ')}`,
    `style-src ${styles.map(hash).join(' ')}`,
    'img-src data:',
    'worker-src blob:',
    "base-uri 'none'",
    "form-action 'none'",
  ]
  return `<meta http-equiv="Content-Security-Policy" content="${rules.join('; ')}">`
}
