import type { LessonStep } from '../../../generated/contract'
import { say } from '../../base/words'
import { after, type Uncovered } from './uncovered'

/** What the button that uncovers does next. */
export function revealName(uncovered: Uncovered, step: Pick<LessonStep, 'kind'>): string {
  const names: Record<Uncovered, string> = {
    nothing: say('lesson-class-cover'),
    readings: say('lesson-class-readings'),
    answer: say('lesson-class-reveal'),
  }
  return names[after(uncovered, step)]
}
