// What tolerances make of curves.

import { area as areaOf } from 'd3-shape'
import type { Axis, PlotSpread, Settings, Trace } from '../../generated/contract'
import type { Curve } from './curves'
import { pathOf } from './curve'
import type { Frame, Framed } from './frame'
import { memo } from '../base/memo'
import { heightAt } from './trace'
import { print, type Printing } from '../base/unit'
import { say } from '../base/words'

/** Between which heights a curve lies. */
export interface Range {
  readonly key: string
  /** The key of its curve. */
  readonly curve: string
  readonly name: string
  /** Whether it holds nine in ten rigs, or all of them. */
  readonly usual: boolean
  readonly low: Trace
  readonly high: Trace
}

/** The plot that its band needs, for a frame that holds both. */
export function stretched({ y, ...plot }: Framed, spread: PlotSpread | null): Framed[] {
  return spread === null ? [] : [{ ...plot, y: { ...y, from: spread.from, to: spread.to } }]
}

/** The ranges of the present curves. */
export function rangesOf(curves: readonly Curve[], spread: PlotSpread | null): Range[] {
  const present = curves.filter(({ set, trace }) => set === 0 && !trace.reference)
  return present.flatMap(({ trace, lines, key }) => {
    const found = spread?.traces.find(({ id, low }) => id === trace.id && low.length === trace.x.length)
    if (found === undefined) return []
    const name = (kind: string) => (present.length > 1 ? `${lines.join(', ')}, ${say(kind)}` : say(kind))
    return [
      {
        key: `${key} usual`,
        curve: key,
        name: name('spread-usual-short'),
        usual: true,
        low: { ...trace, y: found.low },
        high: { ...trace, y: found.high },
      },
      {
        key: `${key} worst`,
        curve: key,
        name: name('spread-worst-short'),
        usual: false,
        low: { ...trace, y: found.least },
        high: { ...trace, y: found.most },
      },
    ]
  })
}

/** A range at `x`, in words. */
export function rangeAt({ low, high }: Range, x: number, axis: Axis, how: Printing, settings: Settings): string {
  const [from, to] = [low, high].map(trace => print(heightAt(trace, x, axis), how, settings))
  return say('spread-range', { from: from ?? '', to: to ?? '' })
}

interface Properties {
  readonly frame: Frame
  readonly ranges: readonly Range[]
  /** The clip of the curves. */
  readonly clip: string
}

/** The bands under the curves, and the worst cases as lines. */
export const Ranges = memo(({ frame, ranges, clip }: Properties) => (
  <g clip-path={`url(#${CSS.escape(clip)})`}>
    {ranges.map(range =>
      range.usual ? (
        <path key={range.key} class="band" data-range="usual" d={bandOf(range, frame)} />
      ) : (
        <path
          key={range.key}
          class="worst"
          data-range="worst"
          d={pathOf(range.low, frame) + pathOf(range.high, frame)}
        />
      ),
    )}
  </g>
))

function bandOf({ low, high }: Range, frame: Frame): string {
  const height = ({ y }: Trace, index: number) => frame.y(y[index] ?? NaN)
  const draw = areaOf<number>()
    .defined((_, index) => Number.isFinite(low.y[index]) && Number.isFinite(high.y[index]))
    .x(value => frame.x(value))
    .y0((_, index) => height(low, index))
    .y1((_, index) => height(high, index))
    .digits(1)
  return draw(low.x) ?? ''
}

/** What the band and the lines are, and in words what they show. */
export function SpreadKey({ summary, spreading }: { readonly summary: string; readonly spreading: boolean }) {
  return (
    <div class="spread-key" data-spreading={spreading}>
      <p>
        <svg viewBox="0 0 32 12" aria-hidden="true">
          <path class="band" d="M0 0H32V12H0Z" />
        </svg>
        {say('spread-usual-short')}
      </p>
      <p>
        <svg viewBox="0 0 32 12" aria-hidden="true">
          <path class="worst" d="M0 6H32" />
        </svg>
        {say('spread-worst-short')}
      </p>
      <p class="summary">{summary}</p>
    </div>
  )
}
