// The start page as text of the page itself, so that it can be read, followed and
// typed into before any script has come. It is written from the words of the page, as
// list.tsx draws it.

import { wordsIn } from './page-words.mjs'

/** Puts it into the page. */
export function placeStart(page) {
  const { calculators, words } = JSON.parse(wordsIn('page-words.json'))
  page.querySelector('#page main').innerHTML = startPage(calculators, key => words[key])
}

export function startPage(calculators, say) {
  const item = (where, title, purpose) =>
    `<li><a href="#1/${where}"><span class="title">${escape(title)}</span> ` +
    `<span class="purpose">${escape(purpose)}</span></a></li>`
  const items = [
    item('fault', say('seek'), say('seek-purpose')),
    item('stage', say('plan'), say('plan-purpose')),
    item('lesson', say('learn'), say('learn-purpose')),
    ...calculators.map(({ id, title, purpose }) => item(`${id}" data-calculator="${id}`, title, purpose)),
  ]
  return [
    `<div class="intro"><h1>${escape(say('title'))}</h1><p>${escape(say('purpose'))}</p></div>`,
    // No form: there is nobody yet to take what it would send.
    `<div class="finder"><search><div class="find"><label for="find">${escape(say('find'))}</label>`,
    `<input id="find" type="search" autocomplete="off" autocapitalize="none" autocorrect="off" spellcheck="false"`,
    ` placeholder="${escape(say('find-example'))}"></div></search><p class="count"></p><ul class="hits"></ul></div>`,
    `<ul class="calculators">${items.join('')}</ul>`,
  ].join('')
}

function escape(text) {
  return text.replace(/[&<"]/g, letter => `&#${letter.charCodeAt(0)};`)
}
