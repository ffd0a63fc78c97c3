// The start page as text of the page itself, so that it can be read, followed and
// typed into before any script has come. It is written from the core and from the
// catalogue, as list.tsx draws it.

import { execFileSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { root } from './folders.mjs'

/** Puts it into the page. */
export function placeStart(page) {
  page.querySelector('#page main').innerHTML = startPage(calculators(), words())
}

export function startPage(calculators, say) {
  const items = calculators.map(
    ({ id, title, purpose }) =>
      `<li><a href="#1/${id}" data-calculator="${id}"><span class="title">${escape(title)}</span> ` +
      `<span class="purpose">${escape(purpose)}</span></a></li>`,
  )
  return [
    `<div class="intro"><h1>${escape(say('title'))}</h1><p>${escape(say('purpose'))}</p></div>`,
    // No form: there is nobody yet to take what it would send.
    `<div class="finder"><search><div class="find"><label for="find">${escape(say('find'))}</label>`,
    `<input id="find" type="search" autocomplete="off" autocapitalize="none" autocorrect="off" spellcheck="false"`,
    ` placeholder="${escape(say('find-example'))}"></div></search><p class="count"></p><ul class="hits"></ul></div>`,
    `<ul class="calculators">${items.join('')}</ul>`,
  ].join('')
}

function calculators() {
  const args = ['run', '--quiet', '--locked', '--package', 'stageohm', '--example', 'solve', '--', '--list']
  return JSON.parse(execFileSync('cargo', args, { cwd: root, maxBuffer: 100_000_000 }))
}

/** The page's own words, of which the start takes those that have nothing to be put in. */
function words() {
  const catalogue = readFileSync(join(root, 'crate/src/words/en.ftl'), 'utf8')
  return key => {
    const [, text] = new RegExp(`^page-${key} = (.+)$`, 'm').exec(catalogue) ?? []
    if (text === undefined) throw new Error(`the catalogue has no page-${key}`)
    return text
  }
}

function escape(text) {
  return text.replace(/[&<"]/g, letter => `&#${letter.charCodeAt(0)};`)
}
