import type { LessonStep, Plot } from '../../../generated/contract'
import { FixedDrawing } from '../../plot/drawing'
import { curvesOf } from '../../plot/curves'
import { useStore } from '../../screen/store'
import { plotOf, readingOf, type Bench } from '../bench'
import { LINE, WIDTH } from './empty-axes'

interface Properties {
  readonly step: LessonStep
  readonly bench: Bench | null
  /** Once a page. */
  readonly id: string
}

/** What a step that asks nothing shows of its rig. */
export function ShownOnPaper({ step, bench, id }: Properties) {
  const reading = step.reading === '' ? undefined : readingOf(bench, step.reading)
  const plot = step.plot === '' ? undefined : plotOf(bench, step.plot)
  return (
    <>
      {reading !== undefined && (
        <p class="lesson-reading">
          {reading.name}: <strong>{reading.text}</strong>
        </p>
      )}
      {plot !== undefined && <PlotOnPaper plot={plot} id={id} />}
    </>
  )
}

/** A plot with its curves. */
export function PlotOnPaper({ plot, id }: { readonly plot: Plot; readonly id: string }) {
  const settings = useStore(state => state.settings)
  return (
    <figure class="picture lesson-axes">
      <figcaption>{plot.title}</figcaption>
      <FixedDrawing
        plot={plot}
        curves={curvesOf(plot, [], [])}
        others={[]}
        ranges={[]}
        width={WIDTH}
        line={LINE}
        settings={settings}
        id={id}
        label={`${plot.title}. ${plot.summary}`}
      />
    </figure>
  )
}
