import { useMemo } from 'preact/hooks'
import type { CauseOdds, Heard } from '../../../generated/contract'
import { predictedOf, type Predicted } from './predicted'

export function usePredicted(odds: readonly CauseOdds[], heard: Heard | null): readonly Predicted[] {
  return useMemo(() => predictedOf(odds, heard), [odds, heard])
}
