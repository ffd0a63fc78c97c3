// Curves that have heights at some places alone: a stem at each, from the edge of
// the plot, and nothing in between.

import type { Curve } from './curves'
import type { Frame } from './frame'
import type { Range } from './spread'

/** Between the stems of one place, in lines, and the room that they leave between places. */
const APART = 0.6
const LEFT_FREE = 0.35

interface Properties {
  readonly frame: Frame
  readonly curves: readonly Curve[]
  readonly line: number
}

/** Where a curve has its stems beside those of the others, in pixels. */
function besides(frame: Frame, curves: readonly Curve[], line: number): (key: string) => number {
  const places = [...(curves[0]?.trace.x ?? [])].map(frame.x)
  const gaps = places.slice(1).map((place, index) => place - (places[index] ?? place))
  const room = Math.min(...gaps, frame.right - frame.left) * (1 - LEFT_FREE)
  const step = Math.min(APART * line, room / curves.length)
  return key => (curves.findIndex(curve => curve.key === key) - (curves.length - 1) / 2) * step
}

export function Stems({ frame, curves, line }: Properties) {
  const beside = besides(frame, curves, line)
  return (
    <g class="stems">
      {[...curves].reverse().map(({ key, trace, set, rank }) => {
        const heads = trace.x.flatMap((x, index) => {
          const [along, down] = [frame.x(x) + beside(key), frame.y(trace.y[index] ?? NaN)]
          return Number.isFinite(down) ? [{ along, down: Math.min(Math.max(down, frame.top), frame.bottom) }] : []
        })
        const path = heads.map(({ along, down }) => `M${along.toFixed(1)},${frame.bottom}V${down.toFixed(1)}`)
        return (
          <g key={key} data-set={set} data-reference={trace.reference}>
            <path
              class="curve"
              data-trace={trace.id}
              data-set={set}
              data-rank={rank}
              data-reference={trace.reference}
              d={path.join('')}
            />
            {heads.map(({ along, down }) =>
              trace.reference ? (
                <line key={along} x1={along - 4} x2={along + 4} y1={down} y2={down} />
              ) : (
                <circle key={along} cx={along} cy={down} r={set === 0 ? 4 : 3} />
              ),
            )}
          </g>
        )
      })}
    </g>
  )
}

/** Half the width of a band at a stem, in lines. */
const HALF = 0.28

/** Between which heights the stems lie. */
export function StemRanges({ frame, curves, line, ranges }: Properties & { readonly ranges: readonly Range[] }) {
  const beside = besides(frame, curves, line)
  return (
    <g>
      {ranges.map(({ key, curve, usual, low, high }) => {
        const spans = low.x.flatMap((x, index) => {
          const [from, to] = [frame.y(low.y[index] ?? NaN), frame.y(high.y[index] ?? NaN)]
          return Number.isFinite(from + to) ? [{ along: frame.x(x) + beside(curve), from, to }] : []
        })
        return <path key={key} {...look(usual)} d={spans.map(span => spanOf(span, HALF * line, usual)).join('')} />
      })}
    </g>
  )
}

/** The looks of a band and of the worst cases. */
export function look(usual: boolean) {
  return usual ? { class: 'band', 'data-range': 'usual' } : { class: 'worst', 'data-range': 'worst' }
}

interface Span {
  readonly along: number
  readonly from: number
  readonly to: number
}

function spanOf({ along, from, to }: Span, half: number, usual: boolean): string {
  const [left, right] = [(along - half).toFixed(1), (along + half).toFixed(1)]
  const [low, high] = [from.toFixed(1), to.toFixed(1)]
  return usual
    ? `M${left},${low}H${right}V${high}H${left}Z`
    : `M${left},${low}H${right}M${left},${high}H${right}M${along.toFixed(1)},${low}V${high}`
}
