import type { LookUpKind } from '../../generated/contract'
import { say } from '../base/words'

/** What an entry is, as a reader says it. */
export function kindName(kind: LookUpKind | 'calculator' | 'example'): string {
  return say(`kind-${kind}`)
}
