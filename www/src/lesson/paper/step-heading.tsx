import type { LessonStep } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { asks } from '../lesson-state'
import { pointsText } from '../points'
import { stepTitle } from '../title'

/** The heading of a step, with what it is worth. */
export function StepHeading({ step, at }: { readonly step: LessonStep; readonly at: number }) {
  const settings = useStore(state => state.settings)
  return (
    <h3 dir="auto">
      {`${at + 1}. ${stepTitle(step, at)}`}
      {asks(step) && (
        <span class="hint">{say('lesson-sheet-worth', { points: pointsText(step.points, settings) })}</span>
      )}
    </h3>
  )
}
