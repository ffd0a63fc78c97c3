// A curve that is drawn by hand: points along a band, rising.

import { tickStep } from 'd3-array'
import { constants, type Axis, type LessonResponse, type LessonStep, type Plot } from '../../generated/contract'
import { heightAt } from '../plot/trace'

export type Points = LessonResponse['curve']

/** A curve is typed at so many frequencies. */
const STOPS = 6
/** A curve that is drawn has a point in each of so many columns and at the end. */
const COLUMNS = 48

/** The empty axes to draw on: the band that counts, and more height than the answer takes. */
export function axesOf({ x, y, traces }: Plot, step: LessonStep): { readonly x: Axis; readonly y: Axis } {
  const [from, to] = [hertz(step.from) ?? x.from, hertz(step.to) ?? x.to]
  const band = to > from && x.from <= from && to <= x.to ? { from, to } : x
  const heights = traces.flatMap(trace =>
    trace.y.filter((height, at) => Number.isFinite(height) && isWithin(trace.x[at] ?? NaN, band)),
  )
  return {
    x: { ...x, from: band.from, to: band.to },
    y: constants.levels.includes(y.unit) && !y.log ? levelsOf(y, heights) : wider(y),
  }
}

function isWithin(value: number, { from, to }: Pick<Axis, 'from' | 'to'>): boolean {
  return value >= from && value <= to
}

/** Most levels are drawn between these: the fewer there are, the better a finger keeps to the tolerance, dB. */
const LEVELS = { from: -40, to: 20 }
/** Those that leave them have an axis that ends at multiples of so much, dB. */
const ROUND = 20

/** The axis for a level: the same for nearly all curves, so that it tells nothing of them. */
function levelsOf(axis: Axis, heights: readonly number[]): Axis {
  if (heights.every(height => isWithin(height, LEVELS))) return { ...axis, ...LEVELS }
  const to = ROUND * Math.ceil(axis.to / ROUND)
  return { ...axis, from: Math.min(ROUND * Math.floor(axis.from / ROUND), to - LEVELS.to + LEVELS.from), to }
}

/** The axis of a plot is as high as its curves: one that is wider, and round, does not give them away. */
function wider(axis: Axis): Axis {
  const { log, from, to } = axis
  if (log) return { ...axis, from: 10 ** (Math.floor(Math.log10(from)) - 1), to: 10 ** (Math.ceil(Math.log10(to)) + 1) }
  const step = tickStep(from, to, 3)
  return { ...axis, from: step * (Math.floor(from / step) - 1), to: step * (Math.ceil(to / step) + 1) }
}

/** A frequency as lessons write it: `50`, `10k`, `2.5 kHz`. */
function hertz(text: string): number | null {
  const [, number, prefix = ''] = /^\s*(\d+(?:\.\d+)?)\s*([kM]?)(?:Hz)?\s*$/.exec(text) ?? []
  return number === undefined ? null : Number(number) * ({ k: 1e3, M: 1e6 }[prefix] ?? 1)
}

/** Where along an axis something is, from 0 to 1. */
function along({ log, from, to }: Axis, at: number): number {
  return log ? Math.log(at / from) / Math.log(to / from) : (at - from) / (to - from)
}

function back({ log, from, to }: Axis, share: number): number {
  return log ? from * (to / from) ** share : from + share * (to - from)
}

/** The places at which a curve may be typed, to two figures; the ends as they are. */
export function stopsOf(axis: Axis): number[] {
  return Array.from({ length: STOPS }, (_, at) => {
    if (at === 0) return axis.from
    return at === STOPS - 1 ? axis.to : Number(back(axis, at / (STOPS - 1)).toPrecision(2))
  })
}

/** A curve with a point more; those within reach of it make room. */
function withPoint(points: Points, axis: Axis, [x, y]: [number, number], reach: number): Points {
  const others = points.filter(([other]) => Math.abs(along(axis, other) - along(axis, x)) > reach)
  return [...others, [x, y] as [number, number]].sort(([a], [b]) => a - b)
}

/** What a stroke from one point to another leaves of a curve: a point in each column that it crosses. */
export function stroke(points: Points, axis: Axis, from: [number, number], to: [number, number]): Points {
  const [start, end] = [from, to].map(([x]) => Math.round(COLUMNS * along(axis, x))) as [number, number]
  const way = end < start ? -1 : 1
  let next = points
  for (let column = start; way * column <= way * end; column += way) {
    const share = start === end ? 1 : (column - start) / (end - start)
    const point: [number, number] = [placeOf(axis, column), from[1] + share * (to[1] - from[1])]
    next = withPoint(next, axis, point, 0.5 / COLUMNS)
  }
  return next
}

/** Where a column is: at the ends exactly there. */
function placeOf(axis: Axis, column: number): number {
  if (column === 0) return axis.from
  return column === COLUMNS ? axis.to : Number(back(axis, column / COLUMNS).toPrecision(4))
}

/** The height that stands at a place where a curve is typed; nothing where none does. */
export function typedAt(points: Points, axis: Axis, stop: number): number | null {
  const exact = points.find(([x]) => x === stop)
  if (exact !== undefined) return exact[1]
  const height = heightAt(traceOf(points), stop, axis)
  return Number.isFinite(height) ? height : null
}

/** Types a height at a place, or takes it away: what was drawn around it goes. */
export function typed(points: Points, axis: Axis, stop: number, height: number | null): Points {
  const reach = 0.5 / (STOPS - 1)
  if (height !== null) return withPoint(points, axis, [stop, height], reach)
  return points.filter(([x]) => Math.abs(along(axis, x) - along(axis, stop)) > reach)
}

export function traceOf(points: Points) {
  return { id: 'drawn', name: '', reference: false, x: points.map(([x]) => x), y: points.map(([, y]) => y) }
}
