import { useMemo } from 'preact/hooks'
import type { Description } from '../../generated/contract'
import { curvesOf, setNames } from './curves'
import { PlotView } from './plot'
import { useStore } from '../screen/store'

interface Properties {
  readonly description: Description
  /** The first alone, without what is under it, or those after it; all where nothing is said. */
  readonly part?: 'first' | 'others'
}

export function Plots({ description, part }: Properties) {
  const good = useStore(state => state.good)
  const held = useStore(state => state.held)
  const spread = useStore(state => state.spread)
  const spreading = useStore(state => state.spreading)
  const drawn = useMemo(() => {
    if (good === null) return []
    const names = setNames(description, good, held)
    const { plots } = good.report
    const shown = part === undefined ? plots : part === 'first' ? plots.slice(0, 1) : plots.slice(1)
    return shown.map(plot => ({ plot, curves: curvesOf(plot, held, names) }))
  }, [description, part, good, held])
  return (
    <div class="plots">
      {drawn.map(({ plot, curves }) => (
        <PlotView
          key={plot.id}
          plot={plot}
          curves={curves}
          held={held}
          spread={spread?.plots.find(({ id }) => id === plot.id) ?? null}
          spreading={spreading}
          bare={part === 'first'}
        />
      ))}
    </div>
  )
}
