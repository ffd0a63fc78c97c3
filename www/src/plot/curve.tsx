import { line as lineOf } from 'd3-shape'
import { useMemo } from 'preact/hooks'
import type { Marker, Trace } from '../../generated/contract'
import type { Curve } from './curves'
import type { Frame } from './frame'
import { placeLabels, type Point } from './labels'
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

function isInside({ x, y, left, right, top, bottom }: Frame, marker: Marker): boolean {
  const [along, down] = [x(marker.x), y(marker.y)]
  return along >= left && along <= right && down >= top && down <= bottom
}

/** At most this many curves are named beside them; the list of what is held names them all. */
const MOST_NAMED = 6
/** On a wide plot one more for as many pixels as these. */
const ROOM = 90

/** Where along the plot the name of a curve may stand, the best first. */
const PLACES = [0.12, 0.3, 0.88, 0.5, 0.7, 0.2, 0.4, 0.6, 0.8]

interface NamesProperties extends CurvesProperties {
  readonly markers: readonly Marker[]
  readonly line: number
}

/** The names of markers and, where there are several, of curves. */
export function CurveNames({ frame, curves, markers, line }: NamesProperties) {
  const labels = useMemo(() => {
    const { left, right, top, bottom } = frame
    const points = curves.map(({ trace }) => pointsOf(trace, frame))
    const marked = markers
      .filter(marker => isInside(frame, marker))
      .map((marker, index) => ({
        lines: [marker.text],
        anchors: [{ x: frame.x(marker.x), y: frame.y(marker.y) }],
        set: -1,
        reference: false,
        spare: index > 0,
      }))
    // A curve alone is named by the title; names of very many would cover them.
    const named =
      curves.length < 2 || curves.length > Math.max(MOST_NAMED, (right - left) / ROOM)
        ? []
        : curves.map(({ lines, trace, set }, index) => ({
            lines,
            anchors: PLACES.flatMap(place => nearest(points[index] ?? [], left + place * (right - left))),
            set,
            reference: trace.reference,
            // The readings under the finger and the table name those too.
            spare: trace.reference,
          }))
    const all = [...marked, ...named].sort((a, b) => Number(a.spare) - Number(b.spare))
    const area = { x: left + 2, y: top + 2, width: right - left - 4, height: bottom - top - 4 }
    return placeLabels(all, area, points.flat(), line)
  }, [frame, curves, markers, line])
  return (
    <g class="names">
      {labels.map(({ lines, x, y, width, height, anchor, set, reference }, index) => (
        <g key={index} data-set={set} data-reference={reference}>
          {set >= 0 && (
            <line
              x1={anchor.x}
              y1={anchor.y}
              x2={between(anchor.x, x, x + width)}
              y2={between(anchor.y, y, y + height)}
            />
          )}
          <text text-anchor="middle">
            {lines.map((text, index) => (
              <tspan key={index} x={x + width / 2} y={y + (index + 0.8) * line}>
                {text}
              </tspan>
            ))}
          </text>
        </g>
      ))}
    </g>
  )
}

function between(value: number, from: number, to: number): number {
  return Math.min(Math.max(value, from), to)
}

/** Enough points of a curve to keep labels off it. */
const POINTS = 60

function pointsOf({ x, y }: Trace, frame: Frame): Point[] {
  const points: Point[] = []
  for (let index = 0; index < x.length; index += Math.ceil(x.length / POINTS)) {
    const point = { x: frame.x(x[index] ?? NaN), y: frame.y(y[index] ?? NaN) }
    if (point.x >= frame.left && point.x <= frame.right && point.y >= frame.top && point.y <= frame.bottom)
      points.push(point)
  }
  return points
}

/** The first point from `x` on, if the curve goes on so far. */
function nearest(points: readonly Point[], x: number): Point[] {
  const after = points.find(point => point.x >= x)
  return after === undefined ? [] : [after]
}
