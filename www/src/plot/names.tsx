// What stands in a plot beside what it names: markers, and the names of curves, or
// their numbers in the key where names have no room.

import type { Plot } from '../../generated/contract'
import { isInside } from './curve'
import type { Curve } from './curves'
import type { Frame } from './frame'
import { Tag } from './key'
import { placeLabels, type Label, type Placed, type Point } from './labels'
import { memo } from '../base/memo'

/** More curves than this are not tried to be named beside them, for there never was room. */
const MOST_NAMED = 6
/** On a wide plot one more for as many pixels as these. */
const ROOM = 90

/** Where along the plot the name of a curve may stand, the best first. */
const PLACES = [0.12, 0.3, 0.88, 0.5, 0.7, 0.2, 0.4, 0.6, 0.8]
/** And its number: at its end first. */
const ENDS = [0.97, 0.9, 0.03, 0.1, 0.8, 0.2, 0.7, 0.3, 0.6, 0.4, 0.5]

interface Kind extends Label {
  readonly set: number
  readonly reference: boolean
}

export interface Names {
  readonly labels: readonly (Kind & Placed)[]
  readonly key: 'none' | 'looks' | 'numbers'
}

/** What is named where, and what the key has to name. */
export function namesOf({ x, markers }: Plot, frame: Frame, curves: readonly Curve[], line: number): Names {
  const several = curves.length > 1
  // In rows everything has its place.
  if (frame.row > 0) return { labels: [], key: several ? 'looks' : 'none' }
  const { left, right, top, bottom } = frame
  const points = curves.map(({ trace }) => pointsOf(trace, frame, x.discrete))
  const marked = markers
    .filter(marker => isInside(frame, marker))
    .map((marker, index) => {
      const { text } = marker
      const anchors = [{ x: frame.x(marker.x), y: frame.y(marker.y) }]
      return { lines: [text], anchors, set: -1, reference: false, tag: false, spare: index > 0, shy: x.discrete }
    })
  const area = { x: left + 2, y: top + 2, width: right - left - 4, height: bottom - top - 4 }
  const place = (labels: readonly Kind[]) => placeLabels(labels, area, points.flat(), line)
  // A curve alone is named by the title, and stems are too narrow for names.
  if (!several) return { labels: place(marked), key: 'none' }
  if (x.discrete) return { labels: place(marked), key: 'looks' }
  const along = (places: readonly number[], index: number) =>
    places.flatMap(place => nearest(points[index] ?? [], left + place * (right - left)))
  const [first, others] = [marked.slice(0, 1), marked.slice(1)]
  if (curves.length <= Math.max(MOST_NAMED, (right - left) / ROOM)) {
    const names = curves.map(({ lines, trace, set }, index) => ({
      lines,
      anchors: along(PLACES, index),
      set,
      reference: trace.reference,
      tag: false,
      spare: true,
      shy: false,
    }))
    const labels = place([...first, ...names, ...others])
    if (labels.filter(({ set, clear }) => set >= 0 && clear).length === curves.length) return { labels, key: 'none' }
  }
  const tags = curves.map(({ trace, set }, index) => ({
    lines: [`${index + 1}`],
    anchors: along(ENDS, index),
    set,
    reference: trace.reference,
    tag: true,
    spare: true,
    shy: false,
  }))
  return { labels: place([...first, ...tags, ...others]), key: 'numbers' }
}

export const NameLabels = memo(({ names: { labels }, line }: { readonly names: Names; readonly line: number }) => (
  <g class="names">
    {labels.map(({ lines, x, y, width, height, anchor, set, reference, tag }, index) => (
      <g key={index} data-set={set} data-reference={reference}>
        {set >= 0 && (
          <line
            x1={anchor.x}
            y1={anchor.y}
            x2={tag ? x + width / 2 : between(anchor.x, x, x + width)}
            y2={tag ? y + height / 2 : between(anchor.y, y, y + height)}
          />
        )}
        {tag ? (
          <Tag text={lines.join('')} x={x + width / 2} y={y + height / 2} line={line} />
        ) : (
          <text text-anchor="middle">
            {lines.map((text, index) => (
              <tspan key={index} x={x + width / 2} y={y + (0.9 + 1.2 * index) * line}>
                {text}
              </tspan>
            ))}
          </text>
        )}
      </g>
    ))}
  </g>
))

function between(value: number, from: number, to: number): number {
  return Math.min(Math.max(value, from), to)
}

/** Enough points of a curve to keep labels off it, and of a stem. */
const POINTS = 60
const OF_STEM = 8

function pointsOf({ x, y }: Curve['trace'], frame: Frame, stems: boolean): Point[] {
  const points: Point[] = []
  for (let index = 0; index < x.length; index += Math.ceil(x.length / POINTS)) {
    const point = { x: frame.x(x[index] ?? NaN), y: frame.y(y[index] ?? NaN) }
    if (!(point.x >= frame.left && point.x <= frame.right && point.y >= frame.top && point.y <= frame.bottom)) continue
    points.push(point)
    for (let part = 1; stems && part < OF_STEM; part++) {
      points.push({ x: point.x, y: point.y + (part / OF_STEM) * (frame.bottom - point.y) })
    }
  }
  return points
}

/** The first point from `x` on, if the curve goes on so far. */
function nearest(points: readonly Point[], x: number): Point[] {
  const after = points.find(point => point.x >= x)
  return after === undefined ? [] : [after]
}
