import type { LessonStep } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { asks, type LessonState } from '../lesson-state'
import { pointsText } from '../points'
import { stepTitle } from '../title'
import { titledIn } from '../told-in'

interface Properties {
  readonly state: LessonState
  readonly step: LessonStep
  readonly at: number
}

/** The heading of a step, with what it is worth. */
export function StepHeading({ state, step, at }: Properties) {
  const settings = useStore(state => state.settings)
  return (
    <h3 dir="auto">
      <span>
        {`${at + 1}. `}
        <span lang={titledIn(state, step)}>{stepTitle(step, at)}</span>
      </span>
      {asks(step) && (
        <span class="hint">{say('lesson-sheet-worth', { points: pointsText(step.points, settings) })}</span>
      )}
    </h3>
  )
}
