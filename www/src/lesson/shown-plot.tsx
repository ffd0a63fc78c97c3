import { useId, useMemo, useState } from 'preact/hooks'
import type { Plot } from '../../generated/contract'
import { useSize } from '../base/size'
import { say } from '../base/words'
import { Cursor } from '../plot/cursor'
import type { Curve } from '../plot/curves'
import { Drawing } from '../plot/drawing'
import { frameOf } from '../plot/frame'
import { Numbers } from '../plot/numbers'
import { CursorLine, inWords, readAt, UnderFinger } from '../plot/under-finger'
import { useStore } from '../screen/store'

/** Curves of a plot that have a look of their own: what was said, and what would give it. */
const LOOKS: Readonly<Record<string, number>> = { drawn: 1, said: 1, fit: 2 }

function curvesOf({ traces }: Plot): Curve[] {
  return traces.map((trace, rank) => ({
    key: trace.id,
    trace: { ...trace, reference: trace.reference && !(trace.id in LOOKS) },
    lines: [trace.name],
    set: LOOKS[trace.id] ?? 0,
    rank: trace.id in LOOKS ? 0 : rank,
  }))
}

/** Between stems there is no room for what is written at them; the finger and the numbers tell it. */
function withRoom(plot: Plot): Plot {
  return plot.x.discrete && plot.x.names.length === 0 ? { ...plot, markers: [] } : plot
}

/** A plot of a lesson, by eye, by finger, by keys and in numbers. */
export function ShownPlot({ plot: whole }: { readonly plot: Plot }) {
  const settings = useStore(state => state.settings)
  const [ref, width, line] = useSize()
  const [at, setAt] = useState<number | null>(null)
  const id = useId()
  const plot = useMemo(() => withRoom(whole), [whole])
  const curves = useMemo(() => curvesOf(plot), [plot])
  const frame = useMemo(() => frameOf(plot, [], width, line, settings), [plot, width, line, settings])
  const read = at === null ? null : readAt(at, { plot, curves, ranges: [], frame, settings })
  return (
    <figure class="plot lesson-plot" data-plot={plot.id}>
      <figcaption>
        <h3 id={id}>{plot.title}</h3>
        <UnderFinger read={read} />
      </figcaption>
      <div class="picture" ref={ref}>
        <Drawing
          plot={plot}
          curves={curves}
          frame={frame}
          ranges={[]}
          line={line}
          settings={settings}
          id={id}
          label={`${plot.title}. ${plot.summary}`}
        >
          {at !== null && <CursorLine at={at} axis={plot.x} curves={curves} frame={frame} />}
        </Drawing>
        <Cursor
          frame={frame}
          at={at}
          name={say('plot-read', { plot: plot.title })}
          text={inWords(read)}
          onMove={setAt}
        />
      </div>
      <Numbers plot={plot} curves={curves} frame={frame} ranges={[]} />
    </figure>
  )
}
