import type { LessonStep } from '../../generated/contract'
import { say } from '../base/words'
import { fieldOf, type Bench } from './bench'

/** What stands in the fields that the learner is told; all others are hidden. */
export function Given({ step, bench }: { readonly step: LessonStep; readonly bench: Bench | null }) {
  return (
    <dl class="lesson-given" aria-label={say('lesson-given')}>
      {step.given.map(id => {
        const { name, text } = fieldOf(bench, id)
        return (
          <div key={id} data-field={id}>
            <dt>{name}</dt>
            <dd>{text === '' ? say('absent') : text}</dd>
          </div>
        )
      })}
    </dl>
  )
}
