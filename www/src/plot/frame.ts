// The frame of a plot: its scales and where its edges are, in pixels.

import type { Axis, Plot, Settings } from '../../generated/contract'
import { widthOf } from './measure'
import { scaleOf } from './trace'
import { axisPrinting, fromPrinted, print, toPrinted, type Printing } from '../base/unit'

export interface Frame {
  readonly width: number
  readonly height: number
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  /**
   * The height of a row where the horizontal axis has named places. They stand
   * one under the other then, since words have room along and not down: `x` is
   * down the middle of a row's bars, and `y` along. 0 where there are no rows.
   */
  readonly row: number
  /** Pixels along from a value of the horizontal axis. */
  x(value: number): number
  /** The value of the horizontal axis at a pixel; the nearest one where there are but some. */
  along(pixel: number): number
  /** A value of the horizontal axis in words. */
  where(value: number): string
  /** Pixels down from a value of the vertical axis. */
  y(value: number): number
  readonly xTicks: readonly Tick[]
  readonly yTicks: readonly Tick[]
  /** The names of the axes with their units. */
  readonly xName: string
  readonly yName: string
  /** Rows of the names of the axes, under the numbers. */
  readonly nameRows: number
  readonly xPrinting: Printing
  readonly yPrinting: Printing
}

export interface Tick {
  readonly at: number
  /** Empty where there is no room for it. */
  readonly text: string
  /** The middle of the text along: at an end it is moved to stay inside the picture. */
  readonly middle: number
}

/** What of a plot its frame depends on. */
export type Framed = Pick<Plot, 'x' | 'y' | 'bands' | 'stops'>

/** The least height of a plot of curves, in lines. */
const LEAST = 16
/** The height of a row, and where in it the middle of its bars is, in lines. */
const ROW = 2.75
const BARS_AT = 1.88

/** The frame that holds a plot and those of the held values; where there is little room, a low one, and none higher than it may be. */
export function frameOf(
  plot: Framed,
  others: readonly Framed[],
  width: number,
  line: number,
  settings: Settings,
  low = false,
  most = Infinity,
): Frame {
  return plot.x.names.length > 0
    ? rowsOf(plot, others, width, line, settings)
    : curvesOf(plot, others, width, line, settings, Math.min(heightOf(width, line, low), most))
}

function heightOf(width: number, line: number, low: boolean): number {
  const [share, most] = low ? [0.5, 22] : [0.8, 30]
  return Math.round(Math.min(Math.max(share * width, LEAST * line), most * line))
}

function curvesOf(
  plot: Framed,
  others: readonly Framed[],
  width: number,
  line: number,
  settings: Settings,
  height: number,
): Frame {
  const left = 3.9 * line
  const right = width - 1.1 * line
  const top = plot.bands.length > 0 ? 2.9 * line : line
  const all = [plot, ...others]
  const xAxes = all.map(({ x }) => x)
  const yAxes = all.map(({ y }) => y)
  const [xPrinting, x] = scaled(plot.x, xAxes, [left, right], settings)
  const yPrinting = printingOf(plot.y, yAxes, settings)
  const [xName, yName] = [named(plot.x, xPrinting), named(plot.y, yPrinting)]
  // The names of both axes stand in one row where they have room.
  const nameRows = widthOf(xName, line) + widthOf(yName, line) + 2 * line > width ? 2 : 1
  const bottom = height - (2 + 1.2 * nameRows) * line
  const [, y] = scaled(plot.y, yAxes, [bottom, top], settings)
  return {
    width,
    height,
    left,
    right,
    top,
    bottom,
    row: 0,
    x: value => x(toPrinted(value, xPrinting)),
    along: pixel => {
      const value = fromPrinted(x.invert(pixel), xPrinting)
      if (!plot.x.discrete) return value
      const away = (stop: number) => Math.abs(x(toPrinted(stop, xPrinting)) - pixel)
      return [...plot.stops].sort((a, b) => away(a) - away(b))[0] ?? value
    },
    where: value => print(value, xPrinting, settings),
    y: value => y(toPrinted(value, yPrinting)),
    xTicks: thinned(ticksOf(x, (right - left) / (4 * line), xPrinting), width, line),
    yTicks: ticksOf(y, (bottom - top) / (2.5 * line), yPrinting),
    xName,
    yName,
    nameRows,
    xPrinting,
    yPrinting,
  }
}

function rowsOf(plot: Framed, others: readonly Framed[], width: number, line: number, settings: Settings): Frame {
  const { names } = plot.x
  const [left, right] = [0.8 * line, width - 1.3 * line]
  const [top, row] = [0.2 * line, ROW * line]
  const bottom = top + names.length * row
  const axes = [plot, ...others].map(({ y }) => y)
  const [yPrinting, y] = scaled(plot.y, axes, [left, right], settings)
  const xPrinting = printingOf(plot.x, [plot.x], settings)
  return {
    width,
    height: Math.ceil(bottom + 2.9 * line),
    left,
    right,
    top,
    bottom,
    row,
    x: place => top + place * row + BARS_AT * line,
    along: pixel => Math.min(Math.max(Math.floor((pixel - top) / row), 0), names.length - 1),
    where: place => names[place] ?? '',
    y: value => y(toPrinted(value, yPrinting)),
    xTicks: [],
    yTicks: thinned(ticksOf(y, (right - left) / (4 * line), yPrinting), width, line),
    // The title says what the rows are.
    xName: '',
    yName: named(plot.y, yPrinting),
    nameRows: 1,
    xPrinting,
    yPrinting,
  }
}

function ticksOf(scale: ReturnType<typeof scaled>[1], count: number, { ticks }: Printing): Tick[] {
  const format = scale.tickFormat(count, ticks)
  return scale.ticks(count).map(value => ({ at: scale(value), text: format(value), middle: scale(value) }))
}

/** Leaves out the labels that would run into the ones before them. */
function thinned(ticks: readonly Tick[], width: number, line: number): Tick[] {
  let taken = -Infinity
  return ticks.map(({ at, text }) => {
    const half = widthOf(text, line) / 2
    const middle = Math.min(Math.max(at, half), width - half)
    if (text === '' || middle - half < taken + 0.4 * line) return { at, text: '', middle }
    taken = middle + half
    return { at, text, middle }
  })
}

function named({ name }: Axis, { symbol }: Printing): string {
  return symbol === '' ? name : `${name}, ${symbol}`
}

function printingOf(axis: Axis, all: readonly Axis[], settings: Settings): Printing {
  return axisPrinting(axis, ...ends(all), settings)
}

function ends(all: readonly Axis[]): [number, number] {
  return [Math.min(...all.map(({ from }) => from)), Math.max(...all.map(({ to }) => to))]
}

function scaled(axis: Axis, all: readonly Axis[], range: [number, number], settings: Settings) {
  const [from, to] = ends(all)
  const how = printingOf(axis, all, settings)
  const scale = scaleOf(axis)
    .domain([toPrinted(from, how), toPrinted(to, how)])
    .range(range)
  return [how, scale] as const
}
