// The frame of a plot: its scales and where its edges are, in pixels.

import type { Axis, Plot, Settings } from '../../generated/contract'
import { LETTER } from './labels'
import { scaleOf } from './trace'
import { axisPrinting, fromPrinted, print, toPrinted, type Printing } from '../base/unit'

export interface Frame {
  readonly width: number
  readonly height: number
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
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
  /** Rows of labels under the horizontal axis. */
  readonly xRows: number
  /** Rows of the names of the axes, under those. */
  readonly nameRows: number
  readonly xPrinting: Printing
  readonly yPrinting: Printing
}

export interface Tick {
  readonly at: number
  /** Empty where there is no room for it. */
  readonly text: string
}

/** What of a plot its frame depends on. */
export type Framed = Pick<Plot, 'x' | 'y' | 'bands' | 'stops'>

/** The frame that holds a plot and those of the held values. */
export function frameOf(
  plot: Framed,
  others: readonly Framed[],
  width: number,
  line: number,
  settings: Settings,
): Frame {
  const height = Math.round(Math.min(Math.max(0.8 * width, 16 * line), 30 * line))
  const left = 3.9 * line
  const right = width - 1.1 * line
  const top = plot.bands.length > 0 ? 2.9 * line : line
  const { names } = plot.x
  // Names are longer than numbers: they take turns in as many rows as they need.
  const longest = Math.max(0, ...names.map(({ length }) => length))
  const apart = (right - left) / Math.max(1, names.length - 1)
  const xRows = Math.min(Math.max(Math.ceil((0.75 * longest * line) / apart), 1), 3)
  // The names of both axes stand in one row where they have room.
  const nameRows = LETTER * line * (plot.x.name.length + plot.y.name.length + 12) > width ? 2 : 1
  const bottom = height - (0.8 + 1.2 * xRows + 1.2 * nameRows) * line
  const all = [plot, ...others]
  const xAxes = all.map(({ x }) => x)
  const yAxes = all.map(({ y }) => y)
  const [xPrinting, x] = scaled(plot.x, xAxes, [left, right], settings)
  const [yPrinting, y] = scaled(plot.y, yAxes, [bottom, top], settings)
  const ticks = (scale: typeof x, count: number, { ticks }: Printing): Tick[] => {
    const format = scale.tickFormat(count, ticks)
    return scale.ticks(count).map(value => ({ at: scale(value), text: format(value) }))
  }
  return {
    width,
    height,
    left,
    right,
    top,
    bottom,
    x: value => x(toPrinted(value, xPrinting)),
    along: pixel => {
      const value = fromPrinted(x.invert(pixel), xPrinting)
      if (names.length > 0) return Math.round(value)
      if (!plot.x.discrete) return value
      const away = (stop: number) => Math.abs(x(toPrinted(stop, xPrinting)) - pixel)
      return [...plot.stops].sort((a, b) => away(a) - away(b))[0] ?? value
    },
    where: value => (names.length > 0 ? (names[value] ?? '') : print(value, xPrinting, settings)),
    y: value => y(toPrinted(value, yPrinting)),
    xTicks:
      names.length > 0
        ? names.map((text, index) => ({ at: x(index), text }))
        : thinned(ticks(x, (right - left) / (4 * line), xPrinting), line),
    xRows,
    nameRows,
    yTicks: ticks(y, (bottom - top) / (2.5 * line), yPrinting),
    xPrinting,
    yPrinting,
  }
}

/** Leaves out the labels that would run into the ones before them. */
function thinned(ticks: readonly Tick[], line: number): Tick[] {
  let taken = -Infinity
  return ticks.map(({ at, text }) => {
    const half = 0.3 * text.length * line
    if (text === '' || at - half < taken + 0.4 * line) return { at, text: '' }
    taken = at + half
    return { at, text }
  })
}

function scaled(axis: Axis, all: readonly Axis[], range: [number, number], settings: Settings) {
  const from = Math.min(...all.map(({ from }) => from))
  const to = Math.max(...all.map(({ to }) => to))
  const how = axisPrinting(axis, from, to, settings)
  const scale = scaleOf(axis)
    .domain([toPrinted(from, how), toPrinted(to, how)])
    .range(range)
  return [how, scale] as const
}
