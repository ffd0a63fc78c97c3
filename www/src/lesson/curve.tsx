import { useId, useMemo, useState } from 'preact/hooks'
import { useSize } from '../base/size'
import { print } from '../base/unit'
import { say } from '../base/words'
import { pathOf } from '../plot/curve'
import { Grid } from '../plot/grid'
import { useStore } from '../screen/store'
import { plotOf } from './bench'
import { axesOf, traceOf, typed, type Points } from './drawn-curve'
import { drawnFrame, type Axes } from './drawn-frame'
import { respond } from './lesson-state'
import { Levels } from './levels'
import { Pad, type Place } from './pad'
import type { Asked } from './step'

/** A curve: drawn on empty axes, or typed at six places; both are the same curve. */
export function CurveAnswer({ step, bench, response, at }: Asked) {
  const plot = plotOf(bench, step.plot)
  const axes = useMemo(() => (plot === undefined ? null : axesOf(plot, step)), [plot, step])
  if (axes === null || plot === undefined) return <p class="lesson-unknown">{say('lesson-no-reading')}</p>
  return <Drawn axes={axes} title={plot.title} points={response.curve} at={at} />
}

interface Properties {
  readonly axes: Axes
  readonly title: string
  readonly points: Points
  readonly at: number
}

/** Of more points than these each is not shown. */
const MOST_DOTS = 12

function Drawn({ axes, title, points, at }: Properties) {
  const settings = useStore(state => state.settings)
  const [ref, width, line] = useSize()
  const [over, setOver] = useState<Place | null>(null)
  const { change, note, undo } = useChange(points)
  const id = useId()
  const frame = useMemo(() => drawnFrame(axes, width, line, settings), [axes, width, line, settings])
  const { right, top, bottom } = frame
  return (
    <div class="lesson-curve" role="group" aria-labelledby={id}>
      <Head id={id} title={title} onUndo={undo} onAgain={points.length === 0 ? null : () => change([])} />
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
          {/* Heights that are typed may lie outside. */}
          <svg y={top} width={frame.width} height={bottom - top} viewBox={`0 ${top} ${frame.width} ${bottom - top}`}>
            <path class="curve" data-set="1" d={pathOf(traceOf(points), frame)} />
            {points.length <= MOST_DOTS &&
              points.map(([x, y]) => <circle key={x} class="dot" data-set="1" cx={frame.x(x)} cy={frame.y(y)} r={4} />)}
          </svg>
          {over !== null && (
            <text class="lesson-over" x={right} y={top - 0.25 * line} text-anchor="end" aria-hidden="true">
              {say('lesson-over', { place: frame.where(over[0]), height: print(over[1], frame.yPrinting, settings) })}
            </text>
          )}
        </svg>
        <Pad frame={frame} axes={axes} at={at} onOver={setOver} onStroke={note} />
      </div>
      <Levels
        axes={axes}
        frame={frame}
        points={points}
        onType={(stop, height) => change(typed(points, axes.x, stop, height), stop)}
      />
    </div>
  )
}

interface HeadProperties {
  readonly id: string
  readonly title: string
  /** Nothing where there is nothing to take back, or to begin again. */
  readonly onUndo: (() => void) | null
  readonly onAgain: (() => void) | null
}

/** What is drawn and how. Its buttons stay when they have nothing to do, for what goes takes the focus along. */
function Head({ id, title, onUndo, onAgain }: HeadProperties) {
  return (
    <div class="lesson-curve-head">
      <strong id={id}>{title}</strong>
      <span>
        <button type="button" class="quiet" aria-disabled={onUndo === null} onClick={() => onUndo?.()}>
          {say('lesson-undo')}
        </button>
        <button type="button" class="quiet" aria-disabled={onAgain === null} onClick={() => onAgain?.()}>
          {say('lesson-draw-again')}
        </button>
      </span>
      <p class="hint">{say('lesson-draw')}</p>
    </div>
  )
}

/** Changes a curve; one change can be taken back, which all that is typed at one place is. */
function useChange(points: Points) {
  const [last, setLast] = useState<{ readonly before: Points; readonly place: number | null } | null>(null)
  const note = (before: Points, place: number | null = null) =>
    setLast(now => (place !== null && now?.place === place ? now : { before, place }))
  const change = (next: Points, place: number | null = null) => {
    note(points, place)
    respond({ curve: next })
  }
  const takeBack = () => {
    if (last !== null) respond({ curve: last.before })
    setLast(null)
  }
  return { change, note, undo: last === null ? null : takeBack }
}
