// What a plot says where the finger, the mouse or the arrow keys are.

import type { Axis, Plot, Settings } from '../../generated/contract'
import type { Curve } from './curves'
import type { Frame } from './frame'
import { rangeAt, type Range } from './spread'
import { heightAt, isUpright } from './trace'
import { print } from '../base/unit'
import { say } from '../base/words'

/** What a plot says at one place. */
interface Read {
  readonly place: string
  readonly values: readonly { readonly key: string; readonly name: string; readonly text: string }[]
}

interface Drawn {
  readonly plot: Plot
  readonly curves: readonly Curve[]
  readonly ranges: readonly Range[]
  readonly frame: Frame
  readonly settings: Settings
}

/** Reads a plot at one place. */
export function readAt(at: number, { plot, curves, ranges, frame, settings }: Drawn): Read {
  const band = plot.bands.find(({ from, to }) => at >= from && at < to)
  const heights = curves
    .filter(({ trace }) => !isUpright(trace))
    .map(({ key, trace, lines }) => ({
      key,
      name: lines.join(', '),
      text: print(heightAt(trace, at, plot.x), frame.yPrinting, settings),
    }))
  const spans = ranges.map(range => ({
    key: range.key,
    name: range.name,
    text: rangeAt(range, at, plot.x, frame.yPrinting, settings),
  }))
  // In a row something is written about the place itself.
  const written = frame.row > 0 ? plot.markers.find(({ x }) => x === at)?.text : undefined
  return { place: [frame.where(at), band?.name, written].filter(Boolean).join(', '), values: [...heights, ...spans] }
}

/** The same in one line, for readers of the screen. */
export function inWords(read: Read | null): string {
  if (read === null) return say('plot-no-place')
  return [read.place, ...read.values.map(({ name, text }) => `${name}: ${text}`)].join('; ')
}

/** What is read where the finger is, or what to do for that. */
export function UnderFinger({ read }: { readonly read: Read | null }) {
  return (
    <p class="under-finger">
      {read === null ? (
        <span class="hint">{say('plot-hint')}</span>
      ) : (
        <>
          <strong>{read.place}</strong>
          {read.values.map(({ key, name, text }) => (
            <span key={key}>
              {read.values.length > 1 && `${name}: `}
              <strong>{text}</strong>
            </span>
          ))}
        </>
      )}
    </p>
  )
}

interface CursorLineProperties extends Pick<Drawn, 'curves' | 'frame'> {
  readonly at: number
  readonly axis: Axis
}

/** A line where the plot is read, with a dot on each curve. */
export function CursorLine({ at, axis, curves, frame }: CursorLineProperties) {
  const x = frame.x(at)
  if (frame.row > 0) {
    const row = frame.top + at * frame.row
    return <rect class="cursor-line" x={0} width={frame.width} y={row} height={frame.row} />
  }
  return (
    <>
      <line class="cursor-line" x1={x} x2={x} y1={frame.top} y2={frame.bottom} />
      {curves.map(({ key, trace, set }) => {
        // The heads of stems are dots already.
        if (axis.discrete) return null
        const y = frame.y(heightAt(trace, at, axis))
        return Number.isFinite(y) && <circle key={key} class="dot" data-set={set} cx={x} cy={y} r={4} />
      })}
    </>
  )
}
