import { line as lineOf } from 'd3-shape'
import type { Marker, Trace } from '../../generated/contract'
import type { Curve } from './curves'
import type { Frame } from './frame'
import { memo } from '../base/memo'

/** The path of a curve in its frame. */
export function pathOf({ x, y }: Pick<Trace, 'x' | 'y'>, frame: Pick<Frame, 'x' | 'y'>): string {
  const draw = lineOf<number>()
    .defined((_, index) => Number.isFinite(y[index]))
    .x(value => frame.x(value))
    .y((_, index) => frame.y(y[index] ?? NaN))
    .digits(1)
  return draw(x) ?? ''
}

interface CurvesProperties {
  readonly frame: Frame
  readonly curves: readonly Curve[]
}

export function CurvePaths({ frame, curves, clip }: CurvesProperties & { readonly clip: string }) {
  return (
    <g clip-path={`url(#${CSS.escape(clip)})`}>
      <clipPath id={clip}>
        <rect x={frame.left} y={frame.top} width={frame.right - frame.left} height={frame.bottom - frame.top} />
      </clipPath>
      {/* The present values are drawn last, over the others. */}
      {[...curves].reverse().map(({ key, trace, set, rank }) => (
        <CurvePath key={key} frame={frame} trace={trace} set={set} rank={rank} />
      ))}
    </g>
  )
}

interface PathProperties {
  readonly frame: Frame
  readonly trace: Trace
  readonly set: number
  readonly rank: number
}

const CurvePath = memo(({ frame, trace, set, rank }: PathProperties) => (
  <path
    class="curve"
    data-trace={trace.id}
    data-set={set}
    data-rank={rank}
    data-reference={trace.reference}
    d={pathOf(trace, frame)}
  />
))

export function Markers({ frame, markers }: { readonly frame: Frame; readonly markers: readonly Marker[] }) {
  return (
    <g class="markers">
      {markers
        .filter(marker => isInside(frame, marker))
        .map(({ x, y }, index) => (
          <circle key={index} cx={frame.x(x)} cy={frame.y(y)} r={4.5} />
        ))}
    </g>
  )
}

export function isInside({ x, y, left, right, top, bottom }: Frame, marker: Marker): boolean {
  const [along, down] = [x(marker.x), y(marker.y)]
  return along >= left && along <= right && down >= top && down <= bottom
}
