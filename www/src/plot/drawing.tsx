import type { ComponentChildren } from 'preact'
import { useMemo } from 'preact/hooks'
import type { Plot, Settings } from '../../generated/contract'
import { Bands } from './bands'
import { CurvePaths, Markers } from './curve'
import type { Curve } from './curves'
import { frameOf, type Frame, type Framed } from './frame'
import { Grid } from './grid'
import { entriesOf, Key, layKey, type Layout } from './key'
import { NameLabels, namesOf } from './names'
import { Rows } from './rows'
import { Ranges, type Range } from './spread'
import { StemRanges, Stems } from './stems'

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

const NO_KEY: Layout = { entries: [], height: 0 }

/** A plot as it is drawn, on the screen as on paper. */
export function Drawing({ plot, curves, frame, ranges, line, settings, id, label, children }: Properties) {
  const { x, bands, markers } = plot
  const names = useMemo(() => namesOf(plot, frame, curves, line), [plot, frame, curves, line])
  const key = useMemo(
    () =>
      names.key === 'none'
        ? NO_KEY
        : layKey(entriesOf(plot, curves, frame, names.key === 'numbers', settings), frame, line),
    [names, plot, curves, frame, line, settings],
  )
  const height = frame.height + key.height
  return (
    <svg
      role="img"
      aria-label={label}
      width={frame.width}
      height={height}
      viewBox={`0 0 ${frame.width} ${height}`}
      style={{ fontSize: `${line}px` }}
    >
      <Bands frame={frame} bands={bands} line={line} />
      <Grid frame={frame} line={line} settings={settings} />
      {frame.row > 0 ? (
        <Rows plot={plot} frame={frame} curves={curves} ranges={ranges} line={line} />
      ) : x.discrete ? (
        <>
          <Stems frame={frame} curves={curves} line={line} />
          <StemRanges frame={frame} curves={curves} ranges={ranges} line={line} />
        </>
      ) : (
        <>
          <Ranges frame={frame} ranges={ranges} clip={`${id}-clip`} />
          <CurvePaths frame={frame} curves={curves} clip={`${id}-clip`} />
          <Markers frame={frame} markers={markers} />
        </>
      )}
      <NameLabels names={names} line={line} />
      <Key layout={key} line={line} bars={frame.row > 0} />
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
