// A plot as a picture that stands alone: in light colours on white, with its
// styles in it, for slides, for paper, and for pages that allow no scripts.

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
/** Room for the title, and its letters. */
const HEAD = 36
const LETTERS = 18

/** What moves with the finger is no part of the plot. */
const PASSING = '.cursor-line, .dot'

export interface Picture {
  readonly svg: string
  readonly width: number
  readonly height: number
}

/** The picture of a plot that is drawn somewhere on the page. */
export function pictureOf(plot: SVGSVGElement, title: string, summary: string): Picture {
  const copy = plot.cloneNode(true) as SVGSVGElement
  inLight(() => resolve(plot, copy, null))
  for (const passing of copy.querySelectorAll(PASSING)) passing.remove()
  for (const element of [copy, ...copy.querySelectorAll('*')]) {
    for (const { name } of [...element.attributes]) {
      if (/^(data-|aria-|class$|style$|role$)/.test(name)) element.removeAttribute(name)
    }
  }
  const width = plot.viewBox.baseVal.width + 2 * MARGIN
  const height = plot.viewBox.baseVal.height + HEAD
  copy.setAttribute('width', `${width}`)
  copy.setAttribute('height', `${height}`)
  copy.setAttribute('viewBox', `${-MARGIN} ${-HEAD} ${width} ${height}`)
  copy.setAttribute('xmlns', 'http://www.w3.org/2000/svg')
  copy.setAttribute('font-family', 'sans-serif')
  copy.prepend(made('title', title), made('desc', summary), ground(width, height), head(title))
  return { svg: new XMLSerializer().serializeToString(copy), width, height }
}

/** The same in pixels, two for one, as slides are shown on fine screens. */
export async function pixelsOf({ svg, width, height }: Picture): Promise<Blob> {
  const image = new Image()
  image.src = address(svg)
  await image.decode()
  const canvas = document.createElement('canvas')
  canvas.width = 2 * width
  canvas.height = 2 * height
  canvas.getContext('2d')?.drawImage(image, 0, 0, canvas.width, canvas.height)
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

function ground(width: number, height: number): Element {
  const rect = made('rect', '')
  for (const [name, value] of Object.entries({ x: -MARGIN, y: -HEAD, width, height, fill: '#fff', stroke: 'none' })) {
    rect.setAttribute(name, `${value}`)
  }
  return rect
}

/** On a slide nothing else says what the plot is. */
function head(title: string): Element {
  const text = made('text', title)
  for (const [name, value] of Object.entries({ x: 0, y: 4 - HEAD / 2, fill: '#000', stroke: 'none' })) {
    text.setAttribute(name, `${value}`)
  }
  text.setAttribute('font-size', `${LETTERS}px`)
  text.setAttribute('font-weight', 'bold')
  return text
}

function made(name: string, text: string): Element {
  const element = document.createElementNS('http://www.w3.org/2000/svg', name)
  element.textContent = text
  return element
}
