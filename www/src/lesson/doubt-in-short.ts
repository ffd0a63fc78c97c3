import type { Doubt, LessonStep } from '../../generated/contract'
import { say } from '../base/words'

/** A doubt in one or two words: where ways tie, nothing is near anything. */
export function doubtInShort(doubt: Doubt, { kind }: Pick<LessonStep, 'kind'>): string {
  return say(`lesson-edit-doubt-${doubt === 'boundary' && kind === 'choice' ? 'tie' : doubt}`)
}
