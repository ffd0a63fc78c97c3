// How wide a text will be, so that labels are kept apart before they are drawn.

/** The size at which texts are measured, in pixels: large, so that nothing is rounded. */
const SIZE = 100
/** Numbers change with every input: at most this many texts are remembered. */
const MOST = 2000

const widths = new Map<string, number>()
let context: CanvasRenderingContext2D | null = null

/** The width of a text in letters of this size, in pixels. */
export function widthOf(text: string, size: number): number {
  let width = widths.get(text)
  if (width === undefined) {
    if (widths.size >= MOST) widths.clear()
    width = measured(text) / SIZE
    widths.set(text, width)
  }
  return width * size
}

function measured(text: string): number {
  if (context === null) {
    context = document.createElement('canvas').getContext('2d')
    if (context === null) return text.length * SIZE
    context.font = `${SIZE}px ${getComputedStyle(document.body).fontFamily}`
  }
  return context.measureText(text).width
}

/** A text in lines of at most this width, broken between words. */
export function wrapped(text: string, room: number, size: number): string[] {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines.at(-1)
    if (last !== undefined && widthOf(`${last} ${word}`, size) < room) lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  return lines
}
