// Draws a spectrum ten times a second: on a canvas, of which the page lays out nothing.

import type { Heard } from '../../../generated/contract'
import { isDrawn, numbered, type Axes } from './axes'
import type { Predicted } from './predicted'

/** Frequencies and levels by turns. */
export type Curve = Float32Array

/** What draws curves of what comes in, or came. All but the curve is looked up once. */
export function pen(canvas: HTMLCanvasElement, axes: Axes): (curve: Curve) => void {
  const context = readied(canvas, axes)
  if (context === null) return () => undefined
  context.strokeStyle = colourOf(canvas, 'ink')
  return curve => {
    context.clearRect(0, 0, axes.width, axes.height)
    context.beginPath()
    for (let at = 0; at + 1 < curve.length; at += 2) context.lineTo(axes.x(curve[at] ?? 0), axes.y(curve[at + 1] ?? 0))
    context.stroke()
  }
}

/** Draws the harmonics of the mains that are heard, and what causes would bring. */
export function drawMarks(
  canvas: HTMLCanvasElement,
  axes: Axes,
  heard: Heard | null,
  predicted: readonly Predicted[],
): void {
  const context = readied(canvas, axes)
  if (context === null) return
  context.clearRect(0, 0, axes.width, axes.height)
  if (heard !== null) {
    context.strokeStyle = context.fillStyle = colourOf(canvas, 'accent')
    context.font = `${0.85 * axes.line}px ${getComputedStyle(canvas).fontFamily}`
    drawHarmonics(context, heard, axes)
  }
  context.lineWidth = 2
  predicted.forEach(({ points }, place) => {
    context.strokeStyle = colourOf(canvas, `set-${place + 1}`)
    for (const [hz, level] of points) {
      if (!isDrawn(hz, level)) continue
      context.stroke(new Path2D(markAt(place, axes.x(hz), axes.y(level), 0.36 * axes.line)))
    }
  })
}

function colourOf(canvas: HTMLCanvasElement, name: string): string {
  return getComputedStyle(canvas).getPropertyValue(`--${name}`)
}

function readied(canvas: HTMLCanvasElement, axes: Axes): CanvasRenderingContext2D | null {
  const context = canvas.getContext('2d')
  sized(canvas, axes)
  context?.setTransform(devicePixelRatio, 0, 0, devicePixelRatio, 0, 0)
  return context
}

/** As fine as the screen is. */
function sized(canvas: HTMLCanvasElement, { width, height }: Axes): void {
  const [wide, high] = [Math.round(width * devicePixelRatio), Math.round(height * devicePixelRatio)]
  if (canvas.width === wide && canvas.height === high) return
  Object.assign(canvas, { width: wide, height: high })
  canvas.style.width = `${width}px`
  canvas.style.height = `${height}px`
}

/** The harmonics that stand out, from their numbers along the top down to their levels. */
function drawHarmonics(context: CanvasRenderingContext2D, { lines }: Heard, axes: Axes): void {
  const { top, line, x, y } = axes
  const shown = lines.filter(({ hz, level }) => isDrawn(hz, level))
  context.lineWidth = 1
  context.setLineDash([2, 2])
  context.beginPath()
  for (const { hz, level } of shown) {
    context.moveTo(x(hz), top)
    context.lineTo(x(hz), y(level))
  }
  context.stroke()
  context.setLineDash([])
  context.textAlign = 'center'
  for (const { harmonic, hz } of numbered(shown, axes)) context.fillText(`${harmonic}`, x(hz), top - 0.35 * line)
}

/** A circle, a square or a triangle. */
export function markAt(place: number, x: number, y: number, r: number): string {
  const at = (dx: number, dy: number) => `${(x + dx * r).toFixed(1)} ${(y + dy * r).toFixed(1)}`
  if (place === 0) return `M${at(-1, 0)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`
  if (place === 1) return `M${at(-0.9, -0.9)}L${at(0.9, -0.9)}L${at(0.9, 0.9)}L${at(-0.9, 0.9)}z`
  return `M${at(0, -1.2)}L${at(1.1, 0.8)}L${at(-1.1, 0.8)}z`
}
