import { useId, useMemo, useRef, useState } from 'preact/hooks'
import type { Axis } from '../../generated/contract'
import { AS_TYPED } from '../base/as-typed'
import { useSize } from '../base/size'
import { fromPrinted, print, toPrinted, withSign } from '../base/unit'
import { say } from '../base/words'
import { pathOf } from '../plot/curve'
import { frameOf, type Frame } from '../plot/frame'
import { Grid } from '../plot/grid'
import { useStore } from '../screen/store'
import { plotOf } from './bench'
import { axesOf, stopsOf, stroke, traceOf, typed, typedAt, type Points } from './drawn-curve'
import { commitByEnter } from './commit'
import { lessonState, respond } from './lesson-state'
import type { Asked } from './step'

/** A curve: drawn on empty axes, or typed at six places; both are the same curve. */
export function CurveAnswer({ step, bench, response, at }: Asked) {
  const plot = plotOf(bench, step.plot)
  const axes = useMemo(() => (plot === undefined ? null : axesOf(plot, step)), [plot, step])
  if (axes === null || plot === undefined) return <p class="lesson-unknown">{say('lesson-no-reading')}</p>
  return <Drawn axes={axes} title={plot.title} points={response.curve} at={at} />
}

interface Properties {
  readonly axes: { readonly x: Axis; readonly y: Axis }
  readonly title: string
  readonly points: Points
  readonly at: number
}

/** Of more points than these each is not shown. */
const MOST_DOTS = 12

function Drawn({ axes, title, points, at }: Properties) {
  const settings = useStore(state => state.settings)
  const [ref, width, line] = useSize()
  const id = useId()
  const frame = useMemo(
    () => frameOf({ ...axes, bands: [], stops: [] }, [], width, line, settings),
    [axes, width, line, settings],
  )
  return (
    <div class="lesson-curve" role="group" aria-labelledby={id}>
      <div class="lesson-curve-head">
        <p id={id}>
          <strong>{title}</strong> <span class="hint">{say('lesson-draw')}</span>
        </p>
        <button type="button" class="quiet" disabled={points.length === 0} onClick={() => respond({ curve: [] })}>
          {say('lesson-draw-again')}
        </button>
      </div>
      <div class="picture" ref={ref}>
        <svg
          role="img"
          aria-label={say('lesson-drawn', { plot: title, count: `${points.length}` })}
          width={frame.width}
          height={frame.height}
          viewBox={`0 0 ${frame.width} ${frame.height}`}
          style={{ fontSize: `${line}px` }}
        >
          <Grid frame={frame} line={line} settings={settings} />
          <path class="curve" data-set="1" d={pathOf(traceOf(points), frame)} />
          {points.length <= MOST_DOTS &&
            points.map(([x, y]) => <circle key={x} class="dot" data-set="1" cx={frame.x(x)} cy={frame.y(y)} r={4} />)}
        </svg>
        <Pad frame={frame} axes={axes} at={at} />
      </div>
      <Levels axes={axes} frame={frame} points={points} />
    </div>
  )
}

interface PadProperties extends Pick<Properties, 'axes' | 'at'> {
  readonly frame: Frame
}

/** Where a finger or a mouse draws. */
function Pad({ frame, axes, at }: PadProperties) {
  const { left, right, top, bottom } = frame
  const last = useRef<[number, number] | null>(null)
  const draw = (event: PointerEvent & { readonly currentTarget: HTMLElement }) => {
    const box = event.currentTarget.getBoundingClientRect()
    const within = (share: number) => Math.min(Math.max(share, 0), 1)
    const across = frame.along(left + within((event.clientX - box.left) / box.width) * (right - left))
    const up = within((box.bottom - event.clientY) / box.height)
    const { log, from, to } = axes.y
    const height = log ? from * (to / from) ** up : from + up * (to - from)
    // No finer than a hand means it.
    const point: [number, number] = [across, Number(height.toPrecision(3))]
    const points = lessonState()?.responses[at]?.curve ?? []
    respond({ curve: stroke(points, axes.x, last.current ?? point, point) }, at)
    last.current = point
  }
  return (
    <div
      class="lesson-pad"
      style={{ left: `${left}px`, top: `${top}px`, width: `${right - left}px`, height: `${bottom - top}px` }}
      onPointerDown={event => {
        last.current = null
        event.currentTarget.setPointerCapture(event.pointerId)
        draw(event)
      }}
      onPointerMove={event => {
        if (event.buttons > 0 && last.current !== null) draw(event)
      }}
      onPointerUp={() => {
        last.current = null
      }}
      onPointerCancel={() => {
        last.current = null
      }}
    />
  )
}

interface LevelsProperties extends Pick<Properties, 'axes' | 'points'> {
  readonly frame: Frame
}

/** The same curve, typed. */
function Levels({ axes, frame, points }: LevelsProperties) {
  const settings = useStore(state => state.settings)
  const { symbol } = frame.yPrinting
  return (
    <fieldset class="lesson-levels">
      <legend>{symbol === '' ? say('lesson-levels') : say('lesson-levels-in', { unit: symbol })}</legend>
      {stopsOf(axes.x).map(stop => (
        <label key={stop}>
          <span>{print(stop, frame.xPrinting, settings)}</span>
          <Level
            value={typedAt(points, axes.x, stop)}
            frame={frame}
            onHeight={height => respond({ curve: typed(points, axes.x, stop, height) })}
          />
        </label>
      ))}
    </fieldset>
  )
}

interface LevelProperties {
  readonly value: number | null
  readonly frame: Frame
  readonly onHeight: (height: number | null) => void
}

function Level({ value, frame: { yPrinting }, onHeight }: LevelProperties) {
  const settings = useStore(state => state.settings)
  const [text, setText] = useState<{ readonly typed: string; readonly value: number | null } | null>(null)
  const written = value === null ? '' : withSign(`${Number(toPrinted(value, yPrinting).toFixed(1))}`, settings)
  const height = text === null ? null : heightOf(text.typed)
  const isWrong = text !== null && text.typed.trim() !== '' && height === null
  return (
    <input
      type="text"
      onKeyDown={commitByEnter}
      inputmode="text"
      size={4}
      {...AS_TYPED}
      // What is typed stays as it is typed, until the curve is drawn anew there.
      value={text !== null && (isWrong || text.value === value) ? text.typed : written}
      aria-invalid={isWrong}
      onInput={event => {
        const { value: typed } = event.currentTarget
        const printed = heightOf(typed)
        const next = printed === null ? null : fromPrinted(printed, yPrinting)
        setText({ typed, value: next })
        onHeight(next)
      }}
    />
  )
}

/** A number with a sign or without, and with its unit or without. */
function heightOf(text: string): number | null {
  const [, sign = '', number] = /^\s*([-+−]?)\s*(\d+(?:[.,]\d*)?|[.,]\d+)\s*(?:dB)?\s*$/i.exec(text) ?? []
  if (number === undefined) return null
  return Number(number.replace(',', '.')) * (sign === '-' || sign === '−' ? -1 : 1)
}
