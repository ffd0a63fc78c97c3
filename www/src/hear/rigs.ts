// Which two rigs are heard: that on the screen, and one to compare it with.

import { useMemo } from 'preact/hooks'
import type { Description, Report } from '../../generated/contract'
import { say } from '../base/words'
import { setNames } from '../plot/curves'
import { useStore } from '../screen/store'
import type { HearingSide } from '../engine/hearing'
import { ALONE, sideOf } from './sides'

export interface Rig {
  readonly kind: 'rig' | 'held' | 'flat'
  /** By what a kept one differs, in words. */
  readonly held: string
  readonly side: HearingSide
}

/** What the rig on the screen is compared with: the place of a kept one, or the source alone. */
export type Against = number | 'flat'

const NOTHING: Rig = { kind: 'flat', held: '', side: ALONE }

/** How a rig is called. */
export function nameOf({ kind, held }: Rig): string {
  return say(`hear-side-${kind}`, { held })
}

/** The rig on the screen, and all that it can be compared with, the one that was kept last first. */
export function useRigs(description: Description): { readonly now: Rig; readonly others: Map<Against, Rig> } {
  const good = useStore(state => state.good)
  const held = useStore(state => state.held)
  const report = good?.report
  const now = useMemo(() => rigOf('rig', report ?? null), [report])
  const others = useMemo(() => {
    const names = good === null ? [] : setNames(description, good, held)
    const kept = held.map(({ report }, place): [Against, Rig] => [
      place,
      rigOf('held', report, names[place + 1]?.join(', ')),
    ])
    return new Map<Against, Rig>([...kept.reverse(), ['flat', NOTHING]])
  }, [description, good, held])
  return { now, others }
}

/** That which was chosen; where it is no longer kept, or nothing was chosen, the first. */
export function otherOf(others: ReadonlyMap<Against, Rig>, chosen: Against | null): Rig {
  const [usual = NOTHING] = others.values()
  return (chosen === null ? undefined : others.get(chosen)) ?? usual
}

const sides = new WeakMap<Report, HearingSide>()

/** A report that is the same is the same object to hear. */
function rigOf(kind: Rig['kind'], report: Report | null, held = ''): Rig {
  if (report === null) return { kind, held, side: ALONE }
  const side = sides.get(report) ?? sideOf(report)
  sides.set(report, side)
  return { kind, held, side }
}
