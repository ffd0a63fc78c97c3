import { useMemo } from 'preact/hooks'
import type { Description } from '../../generated/contract'
import { curvesOf, setNames } from './curves'
import { PlotView } from './plot'
import { useStore } from '../screen/store'

export function Plots({ description }: { readonly description: Description }) {
  const good = useStore(state => state.good)
  const held = useStore(state => state.held)
  const spread = useStore(state => state.spread)
  const spreading = useStore(state => state.spreading)
  const drawn = useMemo(() => {
    if (good === null) return []
    const names = setNames(description, good, held)
    return good.report.plots.map(plot => ({ plot, curves: curvesOf(plot, held, names) }))
  }, [description, good, held])
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
        />
      ))}
    </div>
  )
}
