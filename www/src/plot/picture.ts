// A drawing as a picture that stands alone: in light colours on white, with its
// styles in it, for slides, for paper, and for pages that allow no scripts. It says
// itself of what it is, and what made it.

import { say } from '../base/words'
import { wrapped } from './measure'

/** What of a style a picture needs, where it is not as around it. */
const INHERITED = [
  'fill',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linecap',
  'stroke-linejoin',
  'paint-order',
  'text-anchor',
  'font-size',
  'font-style',
  'font-weight',
] as const
const OWN = ['opacity'] as const

/** Words begin at the edge of the plot; a picture wants some room there. */
const MARGIN = 8
/** The letters of the title, of what stands under it, and of who made it. */
const TITLE = 18
const UNDER = 14
const CREDIT = 11
/** The height of a line against its letters. */
const LINE = 1.35
/** Bold letters are so much wider than those that are measured. */
const BOLD = 1.08

/** What moves with the finger is no part of the plot. */
const PASSING = '.cursor-line, .dot'

declare const STAGEOHM_VERSION: string

export interface Picture {
  readonly svg: string
  readonly width: number
  readonly height: number
}

/** What a picture says beside the drawing. */
export interface Said {
  readonly title: string
  /** Of what it is a picture, in lines under the title. */
  readonly under?: readonly string[]
  /** The drawing in words. */
  readonly summary: string
}

/** The picture of what is drawn somewhere on the page, `scale` times as large. */
export function pictureOf(drawing: SVGSVGElement, { title, under = [], summary }: Said, scale = 1): Picture {
  const copy = drawing.cloneNode(true) as SVGSVGElement
  inLight(() => resolve(drawing, copy, null))
  for (const passing of copy.querySelectorAll(PASSING)) passing.remove()
  for (const element of [copy, ...copy.querySelectorAll('*')]) {
    for (const { name } of [...element.attributes]) {
      if (/^(data-|aria-|class$|style$|role$)/.test(name)) element.removeAttribute(name)
    }
  }
  const { x, y, width: inner, height: drawn } = drawing.viewBox.baseVal
  // Letters and margins are as large in every picture.
  const unit = 1 / scale
  const place = { x: x - MARGIN * unit, width: inner + 2 * MARGIN * unit }
  const lines = [
    ...linesOf(title, inner, TITLE * unit, { 'font-weight': 'bold', fill: '#000' }),
    ...under.flatMap(text => linesOf(text, inner, UNDER * unit, { fill: '#333' })),
  ]
  const head = MARGIN * unit + lines.reduce((sum, { letters }) => sum + LINE * letters, 0)
  const foot = linesOf(creditOf(), inner, CREDIT * unit, { fill: '#555' })
  const top = y - head
  const height = head + drawn + MARGIN * unit + foot.length * LINE * CREDIT * unit
  copy.setAttribute('width', `${Math.round(place.width * scale)}`)
  copy.setAttribute('height', `${Math.round(height * scale)}`)
  copy.setAttribute('viewBox', [place.x, top, place.width, height].map(rounded).join(' '))
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg')
  copy.setAttribute('font-family', 'sans-serif')
  copy.prepend(
    made('title', [title, ...under].join('. ')),
    made('desc', summary),
    made('rect', '', { x: place.x, y: top, width: place.width, height, fill: '#fff', stroke: 'none' }),
    ...written(lines, x, top + MARGIN * unit),
    ...written(foot, x, y + drawn),
  )
  return {
    svg: new XMLSerializer().serializeToString(copy),
    width: Math.round(place.width * scale),
    height: Math.round(height * scale),
  }
}

/** What made it. */
function creditOf(): string {
  return say('picture-credit', { version: STAGEOHM_VERSION })
}

interface Line {
  readonly text: string
  readonly letters: number
  readonly how: Readonly<Record<string, string>>
}

function linesOf(text: string, room: number, letters: number, how: Line['how']): Line[] {
  return wrapped(text, room / BOLD, letters).map(text => ({ text, letters, how }))
}

/** Lines of text from here on down. */
function written(lines: readonly Line[], x: number, top: number): Element[] {
  let y = top
  return lines.map(({ text, letters, how }) => {
    y += LINE * letters
    const size = `${rounded(letters)}px`
    const at = { x, y: y - 0.3 * LINE * letters, 'font-size': size, 'text-anchor': 'start', stroke: 'none' }
    return made('text', text, { ...at, ...how })
  })
}

function rounded(number: number): number {
  return Math.round(100 * number) / 100
}

/** The same in pixels, two for one, as slides are shown on fine screens. */
export async function pixelsOf({ svg, width, height }: Picture): Promise<Blob> {
  const image = new Image()
  image.src = address(svg)
  await image.decode()
  const canvas = document.createElement('canvas')
  canvas.width = 2 * width
  canvas.height = 2 * height
  const pen = canvas.getContext('2d')
  if (pen !== null) {
    // Paper also where a part of a pixel stays free at an edge.
    pen.fillStyle = '#fff'
    pen.fillRect(0, 0, canvas.width, canvas.height)
    pen.drawImage(image, 0, 0, canvas.width, canvas.height)
  }
  return new Promise((done, fail) => canvas.toBlob(blob => (blob === null ? fail() : done(blob)), 'image/png'))
}

/** The picture in the address of an image. */
export function address(svg: string): string {
  return `data:image/svg+xml,${encodeURIComponent(svg)}`
}

function resolve(from: Element, to: Element, around: CSSStyleDeclaration | null): void {
  const style = getComputedStyle(from)
  for (const name of INHERITED) {
    const value = style.getPropertyValue(name)
    if (value !== around?.getPropertyValue(name)) to.setAttribute(name, value)
  }
  for (const name of OWN) if (style.getPropertyValue(name) !== '1') to.setAttribute(name, style.getPropertyValue(name))
  ;[...from.children].forEach((child, index) => resolve(child, to.children[index] as Element, style))
}

/** Lets `read` see the light colours; nothing is drawn meanwhile. */
function inLight(read: () => void): void {
  const { dataset } = document.documentElement
  const theme = dataset['theme']
  dataset['theme'] = 'light'
  document.documentElement.style.setProperty('--ground', '#fff')
  read()
  document.documentElement.style.removeProperty('--ground')
  if (theme === undefined) delete dataset['theme']
  else dataset['theme'] = theme
}

function made(name: string, text: string, attributes: Readonly<Record<string, string | number>> = {}): Element {
  const element = document.createElementNS('http://www.w3.org/2000/svg', name)
  for (const [name, value] of Object.entries(attributes)) {
    element.setAttribute(name, typeof value === 'number' ? `${rounded(value)}` : value)
  }
  element.textContent = text
  return element
}
