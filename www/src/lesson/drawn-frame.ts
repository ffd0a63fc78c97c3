// The frame of a curve that is drawn by hand: low enough to be seen whole, its ends named.

import { format } from 'd3-format'
import type { Axis, Settings } from '../../generated/contract'
import { toPrinted } from '../base/unit'
import { frameOf, type Frame, type Tick } from '../plot/frame'
import { widthOf } from '../plot/measure'

export interface Axes {
  readonly x: Axis
  readonly y: Axis
}

/** Of what is seen at once so much is left for the question and the buttons. */
const SHARE = 0.6

export function drawnFrame(axes: Axes, width: number, line: number, settings: Settings): Frame {
  const most = Math.floor(SHARE * innerHeight)
  const frame = frameOf({ ...axes, bands: [], stops: [] }, [], width, line, settings, false, most)
  return { ...frame, xTicks: withEnds(frame, axes.x, line) }
}

/** The ends of the band are named, whatever else is. */
function withEnds({ x, xTicks, xPrinting, width }: Frame, { from, to }: Axis, line: number): Tick[] {
  const half = (text: string) => widthOf(text, line) / 2
  const ends = [from, to].map(end => {
    const text = format(xPrinting.ticks)(toPrinted(end, xPrinting))
    return { at: x(end), text, middle: Math.min(Math.max(x(end), half(text)), width - half(text)) }
  })
  const isClear = (tick: Tick) =>
    ends.every(end => Math.abs(end.middle - tick.middle) > half(end.text) + half(tick.text) + 0.4 * line)
  const others = xTicks.filter(tick => ends.every(end => Math.abs(end.at - tick.at) >= 1))
  return [...ends, ...others.map(tick => (tick.text === '' || isClear(tick) ? tick : { ...tick, text: '' }))]
}
