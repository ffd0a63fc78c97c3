import type { ComponentChildren } from 'preact'
import type { Plot, Settings } from '../../generated/contract'
import { Bands } from './bands'
import { CurveNames, CurvePaths, Markers } from './curve'
import type { Curve } from './curves'
import { frameOf, type Frame, type Framed } from './frame'
import { Grid } from './grid'
import { Ranges, type Range } from './spread'

interface Properties {
  readonly plot: Plot
  readonly curves: readonly Curve[]
  readonly frame: Frame
  readonly ranges: readonly Range[]
  readonly line: number
  readonly settings: Settings
  /** In the names of what parts of the drawing refer to; once a page. */
  readonly id: string
  /** The drawing in words. */
  readonly label: string
  /** What lies over it. */
  readonly children?: ComponentChildren
}

/** A plot as it is drawn, on the screen as on paper. */
export function Drawing({ plot, curves, frame, ranges, line, settings, id, label, children }: Properties) {
  const { x, y, bands, markers } = plot
  return (
    <svg
      role="img"
      aria-label={label}
      width={frame.width}
      height={frame.height}
      viewBox={`0 0 ${frame.width} ${frame.height}`}
      style={{ fontSize: `${line}px` }}
    >
      <Bands frame={frame} bands={bands} line={line} />
      <Grid frame={frame} x={x} y={y} line={line} settings={settings} />
      <Ranges frame={frame} ranges={ranges} clip={`${id}-clip`} />
      <CurvePaths frame={frame} curves={curves} clip={`${id}-clip`} />
      <Markers frame={frame} markers={markers} />
      <CurveNames frame={frame} curves={curves} markers={markers} line={line} />
      {children}
    </svg>
  )
}

interface FixedProperties extends Omit<Properties, 'frame' | 'children'> {
  /** Other plots that its axes have to hold too. */
  readonly others: readonly Framed[]
  readonly width: number
}

/** The same with a width of its own, for what is no screen. */
export function FixedDrawing({ others, width, ...drawn }: FixedProperties) {
  const { plot, line, settings } = drawn
  return <Drawing {...drawn} frame={frameOf(plot, others, width, line, settings)} />
}
