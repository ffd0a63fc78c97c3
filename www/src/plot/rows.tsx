// Named places as rows: at each the bars of what is the answer, one going on where
// the one before it ends, a stroke across for what they are held against, and how
// far it is to there.

import type { Marker, Plot } from '../../generated/contract'
import type { Curve } from './curves'
import type { Frame } from './frame'
import type { Range } from './spread'
import { look } from './stems'
import { memo } from '../base/memo'

/** The bars of all sets in a row, and how far the stroke stands out of them, in lines. */
const BARS = 1.2
const OUT = 0.2
/** Where the words of a row stand, in lines above the middle of its bars. */
const WORDS = 1

interface Properties {
  readonly plot: Plot
  readonly frame: Frame
  readonly curves: readonly Curve[]
  readonly ranges: readonly Range[]
  readonly line: number
}

export const Rows = memo(({ plot, frame, curves, ranges, line }: Properties) => {
  const sets = [...new Set(curves.map(({ set }) => set))]
  const lane = (BARS * line) / Math.max(1, sets.length)
  const laneOf = (set: number) => (sets.indexOf(set) - (sets.length - 1) / 2) * lane
  return (
    <g class="rows">
      {plot.x.names.map((name, place) => (
        <RowWords
          key={name}
          frame={frame}
          name={name}
          down={frame.x(place) - WORDS * line}
          marker={plot.markers.find(({ x }) => x === place)}
        />
      ))}
      {curves.map(curve => (
        <path
          key={curve.key}
          class={curve.trace.reference ? 'curve stroke-across' : 'curve row-bar'}
          data-trace={curve.trace.id}
          data-set={curve.set}
          data-rank={curve.rank}
          data-reference={curve.trace.reference}
          style={curve.trace.reference ? undefined : { strokeWidth: `${0.82 * lane}px` }}
          d={
            curve.trace.reference
              ? strokesOf(curve, frame, (BARS / 2 + OUT) * line)
              : barsOf(curve, before(curve, curves), frame, laneOf(curve.set))
          }
        />
      ))}
      {plot.markers.map(marker => (
        <Distance key={marker.x} marker={marker} frame={frame} curves={curves} line={line} off={laneOf(0)} />
      ))}
      {ranges.map(({ key, usual, low, high }) => (
        <path key={key} {...look(usual)} d={spansOf(low, high, frame, laneOf(0), 0.3 * lane, usual)} />
      ))}
    </g>
  )
})

interface WordsProperties {
  readonly frame: Frame
  readonly name: string
  readonly down: number
  readonly marker: Marker | undefined
}

/** What the row is, and what stands at its end. */
function RowWords({ frame, name, down, marker }: WordsProperties) {
  return (
    <>
      <text x={frame.left} y={down}>
        {name}
      </text>
      {marker !== undefined && (
        <text x={frame.right} y={down} text-anchor="end" class="at-end" data-stressed={marker.stressed}>
          {marker.text}
        </text>
      )}
    </>
  )
}

/** The curve of the same set on which this one goes on. */
function before({ set, rank }: Curve, curves: readonly Curve[]): Curve | undefined {
  return curves.find(curve => curve.set === set && curve.rank === rank - 1 && !curve.trace.reference)
}

function barsOf({ trace }: Curve, before: Curve | undefined, frame: Frame, off: number): string {
  const bars = trace.x.flatMap((place, index) => {
    const from = before === undefined ? frame.left : along(frame, before.trace.y[index] ?? NaN)
    const to = along(frame, trace.y[index] ?? NaN)
    const down = (frame.x(place) + off).toFixed(1)
    return Number.isFinite(from + to) ? [`M${from.toFixed(1)},${down}H${to.toFixed(1)}`] : []
  })
  return bars.join('')
}

function strokesOf({ trace }: Curve, frame: Frame, half: number): string {
  const strokes = trace.x.flatMap((place, index) => {
    const at = along(frame, trace.y[index] ?? NaN)
    const down = frame.x(place)
    return Number.isFinite(at) ? [`M${at.toFixed(1)},${(down - half).toFixed(1)}V${(down + half).toFixed(1)}`] : []
  })
  return strokes.join('')
}

function along(frame: Frame, value: number): number {
  return Math.min(Math.max(frame.y(value), frame.left), frame.right)
}

/** The head of an arrow, and the least distance that has room for two, in lines. */
const HEAD = 0.32
const LEAST = 1

interface DistanceProperties {
  readonly marker: Marker
  readonly frame: Frame
  readonly curves: readonly Curve[]
  readonly line: number
  /** How far the present bars are from the middle of the row, in pixels. */
  readonly off: number
}

/** From the end of the present bars to where the marker points: what is left, or what is too much. */
function Distance({ marker, frame, curves, line, off }: DistanceProperties) {
  const ends = curves
    .filter(({ set, trace }) => set === 0 && !trace.reference)
    .map(({ trace }) => frame.y(trace.y[trace.x.indexOf(marker.x)] ?? NaN))
  const [from, to, down] = [Math.max(...ends), frame.y(marker.y), frame.x(marker.x) + off]
  if (!Number.isFinite(from + to) || from === to) return null
  const head = HEAD * line
  const heads =
    Math.abs(to - from) < LEAST * line
      ? ''
      : [[from, Math.sign(to - from)] as const, [to, Math.sign(from - to)] as const]
          .map(
            ([at, way]) =>
              `M${(at + way * head).toFixed(1)},${(down - head).toFixed(1)}L${at.toFixed(1)},${down.toFixed(1)}L${(at + way * head).toFixed(1)},${(down + head).toFixed(1)}`,
          )
          .join('')
  return (
    <path
      class="distance"
      data-stressed={marker.stressed}
      data-over={to < from}
      d={`M${from.toFixed(1)},${down.toFixed(1)}H${to.toFixed(1)}${heads}`}
    />
  )
}

type Heights = Range['low']

function spansOf(low: Heights, high: Heights, frame: Frame, off: number, half: number, usual: boolean): string {
  const spans = low.x.flatMap((place, index) => {
    const [from, to] = [along(frame, low.y[index] ?? NaN), along(frame, high.y[index] ?? NaN)]
    const down = frame.x(place) + off
    if (!Number.isFinite(from + to)) return []
    const [left, right] = [from.toFixed(1), to.toFixed(1)]
    const [above, below] = [(down - half).toFixed(1), (down + half).toFixed(1)]
    return usual
      ? [`M${left},${above}H${right}V${below}H${left}Z`]
      : [`M${left},${above}V${below}M${right},${above}V${below}M${left},${down.toFixed(1)}H${right}`]
  })
  return spans.join('')
}
