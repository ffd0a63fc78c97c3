import { useMemo } from 'preact/hooks'
import type { Diagram } from '../../generated/contract'
import { shownOf } from '../rig/rig'
import type { Bench } from './bench'

export interface OfRig {
  readonly bench: Bench | null
  /** Fields that the learner is told; what others decide is not to be seen. */
  readonly given: readonly string[]
}

/** The diagram of a rig, where nothing that is hidden can be read off it. */
export function useRig({ bench, given }: OfRig): Diagram | null {
  const whole = bench?.answer.report?.diagram ?? null
  const fields = bench?.description?.fields
  return useMemo(() => {
    const hidden = (fields ?? []).map(({ id }) => id).filter(id => !given.includes(id))
    return shownOf(whole, { open: null, locked: [], hidden, working: false, theme: 'system' })
  }, [whole, fields, given])
}
