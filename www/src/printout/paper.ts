// What the printer gets in place of the screen: a sheet of its own, made when it
// is asked for, set as large as one page allows.

import { h, render } from 'preact'
import { whole } from '../screen/address'
import { mayTell } from '../screen/embed'
import { printed } from '../screen/asking'
import { description, filling } from '../screen/shown'
import { Printout } from './printout'
import { embedOf, getState } from '../screen/store'

/**
 * What both A4 and US Letter leave between margins of 10 mm, in CSS pixels, but
 * for 4 mm, since a printer breaks some lines elsewhere than the screen.
 */
const HEIGHT = (255 / 25.4) * 96
/** The size of letters, in points; below the last nobody reads, and a further page is better. */
const SIZES = [9, 8.5, 8]
/** What a break between two pages may leave empty. */
const BREAK = 0.1 * HEIGHT
/** The largest size is looked for on this many pages; what is longer has the smallest. */
const MOST = 4

/** Sets the letters as large as this height allows; as small as may be where none does. */
function fit(paper: HTMLElement, height: number): boolean {
  return SIZES.some(size => {
    paper.style.fontSize = `${size}pt`
    return paper.scrollHeight <= height
  })
}

export function listenForPrinter(): void {
  const paper = document.createElement('div')
  paper.id = 'paper'
  addEventListener('beforeprint', () => {
    const known = description()
    const sheet = printed()
    if (known === undefined || sheet === null) return
    const { held, settings, spread, spreading, backwards, asking } = getState()
    document.body.append(paper)
    const embed = embedOf(getState())
    const link = mayTell(embed) ? whole(sheet.hash) : ''
    const want = filling()?.want
    const asked = want && backwards !== null && !asking && mayTell(embed) ? { want, backwards } : null
    const drawn = spreading ? null : spread
    const walk = document.querySelector('.working .chain[open]') !== null
    render(
      h(Printout, { description: known, good: sheet.good, held, settings, spread: drawn, asked, link, embed, walk }),
      paper,
    )
    // What follows the letters of the page is smaller on paper than on the screen.
    const { style } = document.documentElement
    style.fontSize = 'var(--printed)'
    let pages = 1
    while (!fit(paper, pages * HEIGHT - (pages - 1) * BREAK) && pages < MOST) pages++
    style.removeProperty('font-size')
  })
  addEventListener('afterprint', () => {
    render(null, paper)
    paper.remove()
  })
}
