// Which two rigs are heard: that on the screen, and one to compare it with.

import { useMemo } from 'preact/hooks'
import type { Description, Report } from '../../generated/contract'
import { say } from '../base/words'
import { setNames } from '../plot/curves'
import { differences } from '../plot/difference'
import { isHidden } from '../screen/embed'
import { embedOf, useStore } from '../screen/store'
import type { HearingSide } from '../engine/hearing'
import { ALONE, sideOf } from './sides'

export interface Rig {
  readonly kind: 'rig' | 'held' | 'flat'
  /** What it is called by: of a kept one, whether it differs from the one on the screen in what is shown. */
  readonly called: 'rig' | 'held' | 'held-same' | 'held-hidden' | 'flat'
  /** By what a kept one differs, in words. */
  readonly held: string
  readonly side: HearingSide
}

/** What the rig on the screen is compared with: the place of a kept one, or the source alone. */
export type Against = number | 'flat'

const NOTHING: Rig = { kind: 'flat', called: 'flat', held: '', side: ALONE }

/** How a rig is called. */
export function nameOf({ called, held }: Rig): string {
  return say(`hear-side-${called}`, { held })
}

/** What is said of the rig that is heard. */
export function heardText({ called, held }: Rig): string {
  return say(`hear-on-${called}`, { held })
}

/** The rig on the screen, and all that it can be compared with, the one that was kept last first. */
export function useRigs(description: Description): { readonly now: Rig; readonly others: Map<Against, Rig> } {
  const good = useStore(state => state.good)
  const held = useStore(state => state.held)
  const embed = useStore(embedOf)
  const report = good?.report
  const now = useMemo((): Rig => ({ kind: 'rig', called: 'rig', held: '', side: heardOf(report ?? null) }), [report])
  const others = useMemo(() => {
    const names = good === null ? [] : setNames(description, good, held)
    const kept = held.map((one, place): [Against, Rig] => {
      const apart = good === null ? [] : differences(description, one.fields, good.fields)
      const called =
        apart.length === 0 ? 'held-same' : apart.every(({ field }) => isHidden(embed, field)) ? 'held-hidden' : 'held'
      return [place, { kind: 'held', called, held: names[place + 1]?.join(', ') ?? '', side: heardOf(one.report) }]
    })
    return new Map<Against, Rig>([...kept.reverse(), ['flat', NOTHING]])
  }, [description, good, held, embed])
  return { now, others }
}

/** That which was chosen; where it is no longer kept, or nothing was chosen, the first. */
export function otherOf(others: ReadonlyMap<Against, Rig>, chosen: Against | null): Rig {
  const [usual = NOTHING] = others.values()
  return (chosen === null ? undefined : others.get(chosen)) ?? usual
}

const sides = new WeakMap<Report, HearingSide>()

/** A report that is the same is the same object to hear. */
function heardOf(report: Report | null): HearingSide {
  if (report === null) return ALONE
  const side = sides.get(report) ?? sideOf(report)
  sides.set(report, side)
  return side
}
