import { useId, useMemo, useState } from 'preact/hooks'
import type { Plot } from '../generated/contract'
import { Bands } from './bands'
import type { Curve } from './curves'
import { CurveNames, CurvePaths, Markers } from './curve'
import { Cursor } from './cursor'
import { frameOf } from './frame'
import { Grid } from './grid'
import { MOST_HELD } from './link'
import { memo } from './memo'
import { Numbers } from './numbers'
import { hold } from './screen'
import { useStore, type Held } from './store'
import { useSize } from './size'
import { heightAt } from './trace'
import { print } from './unit'
import { say } from './words'

interface Properties {
  readonly plot: Plot
  readonly curves: readonly Curve[]
  readonly held: readonly Held[]
}

/** A picture with what is needed to read it by eye, by finger, by keys and in numbers. */
export const PlotView = memo(({ plot, curves, held }: Properties) => {
  const settings = useStore(state => state.settings)
  const [at, setAt] = useState<number | null>(null)
  const [ref, width, line] = useSize()
  const id = useId()
  const { x, y, bands } = plot
  const frame = useMemo(() => {
    const others = held.flatMap(({ report }) => report?.plots.filter(({ id }) => id === plot.id) ?? [])
    return frameOf({ x, y, bands }, others, width, line, settings)
  }, [x, y, bands, held, width, line, settings])
  const band = bands.find(({ from, to }) => at !== null && at >= from && at < to)
  const values =
    at === null
      ? []
      : curves.map(({ key, trace, lines }) => ({
          key,
          name: lines.join(', '),
          text: print(heightAt(trace, at, plot.x), frame.yPrinting, settings),
        }))
  const place = at === null ? '' : [frame.where(at), band?.name].filter(Boolean).join(', ')
  return (
    <figure class="plot" data-plot={plot.id}>
      <figcaption>
        <h2 id={id}>{plot.title}</h2>
        <p class="under-finger">
          {at === null ? (
            <span class="hint">{say('plot-hint')}</span>
          ) : (
            <>
              <strong>{place}</strong>
              {values.map(({ key, name, text }) => (
                <span key={key}>
                  {curves.length > 1 && `${name}: `}
                  <strong>{text}</strong>
                </span>
              ))}
            </>
          )}
        </p>
      </figcaption>
      <div class="picture" ref={ref}>
        <svg
          role="img"
          aria-label={`${plot.title}. ${plot.summary}`}
          width={frame.width}
          height={frame.height}
          viewBox={`0 0 ${frame.width} ${frame.height}`}
          style={{ fontSize: `${line}px` }}
        >
          <Bands frame={frame} bands={bands} line={line} />
          <Grid frame={frame} x={x} y={y} line={line} settings={settings} />
          <CurvePaths frame={frame} curves={curves} clip={`${id}-clip`} />
          <Markers frame={frame} markers={plot.markers} />
          <CurveNames frame={frame} curves={curves} markers={plot.markers} line={line} />
          {at !== null && <CursorLine x={frame.x(at)} top={frame.top} bottom={frame.bottom} />}
          {at !== null &&
            curves.map(({ key, trace, set }) => {
              const y = frame.y(heightAt(trace, at, plot.x))
              return Number.isFinite(y) && <circle key={key} class="dot" data-set={set} cx={frame.x(at)} cy={y} r={4} />
            })}
        </svg>
        <Cursor
          frame={frame}
          at={at}
          name={say('plot-read', { plot: plot.title })}
          text={[place, ...values.map(({ name, text }) => `${name}: ${text}`)].join('; ')}
          onMove={setAt}
        />
      </div>
      <div class="tools">
        <button type="button" class="chip" disabled={held.length >= MOST_HELD} onClick={hold}>
          {say(held.length >= MOST_HELD ? 'hold-full' : 'hold')}
        </button>
      </div>
      <Numbers plot={plot} curves={curves} frame={frame} />
    </figure>
  )
})

function CursorLine({ x, top, bottom }: { readonly x: number; readonly top: number; readonly bottom: number }) {
  return <line class="cursor-line" x1={x} x2={x} y1={top} y2={bottom} />
}
