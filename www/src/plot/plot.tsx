import type { RefObject } from 'preact'
import { useId, useMemo, useState } from 'preact/hooks'
import type { Plot, PlotSpread } from '../../generated/contract'
import { heldPlots, type Curve } from './curves'
import { Cursor } from './cursor'
import { Drawing } from './drawing'
import { frameOf } from './frame'
import { MOST_HELD } from '../screen/link'
import { memo } from '../base/memo'
import { Numbers } from './numbers'
import { hold } from '../screen/screen'
import { rangesOf, SpreadKey, stretched } from './spread'
import { useSeen, useSettled } from '../base/seen'
import { useStill } from '../base/still'
import { useStore, type Held } from '../screen/store'
import { useSize } from '../base/size'
import { AskAbout, askCurve, isDrawable } from '../share/ask-about'
import { Export } from './export'
import { CursorLine, inWords, readAt, UnderFinger } from './under-finger'
import { say } from '../base/words'

interface Properties {
  readonly plot: Plot
  readonly curves: readonly Curve[]
  readonly held: readonly Held[]
  /** What tolerances make of the present curves; it holds its place while it is `spreading`. */
  readonly spread: PlotSpread | null
  readonly spreading: boolean
  /** Low, and without what stands under it. */
  readonly bare: boolean
}

/** A picture with what is needed to read it; out of sight it waits until the input rests. */
export const PlotView = memo((now: Properties) => {
  const [whenSeen, seen] = useSeen()
  return <Settled {...useSettled(now, seen)} whenSeen={whenSeen} />
})

interface SettledProperties extends Properties {
  readonly whenSeen: (figure: HTMLElement | null) => void
}

/** The picture by eye, by finger, by keys and in numbers. */
const Settled = memo(({ plot, curves, held, spread, spreading, bare, whenSeen }: SettledProperties) => {
  const settings = useStore(state => state.settings)
  const [at, setAt] = useState<number | null>(null)
  const [still, keepStill] = useStill()
  const [ref, width, line] = useSize()
  const id = useId()
  const { id: plotted, x, y, bands, stops } = plot
  const others = useMemo(
    () => [...heldPlots(held, { id: plotted }), ...stretched({ x, y, bands, stops }, spread)],
    [plotted, x, y, bands, stops, held, spread],
  )
  const frame = useMemo(
    () => frameOf({ x, y, bands, stops }, others, width, line, settings, bare),
    [x, y, bands, stops, others, width, line, settings, bare],
  )
  const ranges = useMemo(() => (spreading ? [] : rangesOf(curves, spread)), [curves, spread, spreading])
  const read = at === null ? null : readAt(at, { plot, curves, ranges, frame, settings })
  return (
    <figure class="plot" data-plot={plot.id} ref={whenSeen}>
      <figcaption>
        <h2 id={id}>{plot.title}</h2>
        <UnderFinger read={read} />
      </figcaption>
      <div class="picture" ref={ref}>
        <Drawing
          plot={plot}
          curves={curves}
          frame={frame}
          ranges={ranges}
          line={line}
          settings={settings}
          id={id}
          label={[`${plot.title}. ${plot.summary}`, spreading ? '' : spread?.summary].filter(Boolean).join(' ')}
        >
          {at !== null && <CursorLine at={at} axis={plot.x} curves={curves} frame={frame} />}
        </Drawing>
        <Cursor
          frame={frame}
          at={at}
          name={say('plot-read', { plot: plot.title })}
          text={inWords(read)}
          onMove={at => {
            keepStill()
            setAt(at)
          }}
        />
      </div>
      {spread !== null && spread.traces.length > 0 && <SpreadKey summary={spread.summary} spreading={spreading} />}
      {!bare && (
        <>
          <Hold full={held.length >= MOST_HELD} still={still} plot={plot} />
          <Numbers plot={plot} curves={curves} frame={frame} ranges={ranges} />
          <Export plot={plot} curves={curves} others={others} ranges={ranges} frame={frame} />
        </>
      )}
    </figure>
  )
})

interface HoldProperties {
  readonly plot: Plot
  readonly full: boolean
  readonly still: RefObject<HTMLDivElement | null>
}

/** Keeps what is drawn, to compare others with it. */
function Hold({ full, still, plot }: HoldProperties) {
  return (
    <div class="tools" ref={still}>
      <button type="button" class="chip" disabled={full} onClick={hold}>
        {say(full ? 'hold-full' : 'hold')}
      </button>
      {isDrawable(plot) && <AskAbout step={() => askCurve(plot)} about={plot.title} />}
    </div>
  )
}
