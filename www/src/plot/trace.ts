// Reading a curve between its points. It is read off the line that is drawn, at
// every move of a finger, so this is a matter of the drawing, and here; between
// samples the engine has the same rule for what it computes with
// (`numeric::interpolate`).

import { bisectLeft } from 'd3-array'
import { scaleLinear, scaleLog } from 'd3-scale'
import type { Axis, Trace } from '../../generated/contract'

/** The height of a curve at `x`; NaN where it does not exist. */
export function heightAt({ x: along, y: heights }: Trace, x: number, axis: Axis): number {
  const after = bisectLeft(along, x)
  if (axis.discrete) return along[after] === x ? (heights[after] ?? NaN) : NaN
  const [x0, x1, y0, y1] = [along[after - 1], along[after], heights[after - 1], heights[after]]
  if (x1 === x && y1 !== undefined) return y1
  if (x0 === undefined || x1 === undefined || y0 === undefined || y1 === undefined) return NaN
  return scaleOf(axis).domain([x0, x1]).range([y0, y1])(x)
}

/** Whether a curve says where something is along the axis, and not how high: as good as a line straight up. */
export function isUpright({ x: [first = NaN, ...others] }: Trace): boolean {
  return others.length > 0 && others.every(value => Math.abs(value - first) <= 1e-5 * Math.abs(first))
}

/** The scale of an axis, without domain or range. */
export function scaleOf({ log }: Axis) {
  return log ? scaleLog() : scaleLinear()
}
