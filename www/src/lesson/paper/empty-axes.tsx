import { useMemo } from 'preact/hooks'
import type { LessonStep } from '../../../generated/contract'
import { say } from '../../base/words'
import { frameOf } from '../../plot/frame'
import { Grid } from '../../plot/grid'
import { useStore } from '../../screen/store'
import { plotOf, type Bench } from '../bench'
import { axesOf } from '../drawn-curve'

/** The width of axes on paper and the height of their letters, in pixels. */
export const WIDTH = 620
export const LINE = 11

/** The axes of a plot to draw a curve on: wider than the answer, as on the screen. */
export function EmptyAxes({ step, bench }: { readonly step: LessonStep; readonly bench: Bench | null }) {
  const settings = useStore(state => state.settings)
  const plot = plotOf(bench, step.plot)
  const frame = useMemo(
    () => plot && frameOf({ ...axesOf(plot, step), bands: [], stops: [] }, [], WIDTH, LINE, settings),
    [plot, step, settings],
  )
  if (plot === undefined || frame === undefined) return null
  const { width, height } = frame
  return (
    <figure class="picture lesson-axes">
      <svg
        role="img"
        aria-label={say('lesson-axes', { plot: plot.title })}
        width={width}
        height={height}
        viewBox={`0 0 ${width} ${height}`}
        style={{ fontSize: `${LINE}px` }}
      >
        <Grid frame={frame} line={LINE} settings={settings} />
      </svg>
    </figure>
  )
}
