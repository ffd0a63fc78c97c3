import { useMemo } from 'preact/hooks'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { benchOf, readingOf, workingOf } from '../bench'
import type { LessonState } from '../lesson-state'
import { inFewFigures, wayTo } from './way-to'

/** Kinds whose answer is one number that is worked out. */
const WORKED = ['number', 'magnitude']

/** How the calculator finds what is asked for: formulas with their numbers; nothing where it does not tell. */
export function Working({ state, at }: { readonly state: LessonState; readonly at: number }) {
  const settings = useStore(state => state.settings)
  const steps = useMemo(() => {
    const step = state.lesson.steps[at]
    const isWorked = step !== undefined && WORKED.includes(step.kind)
    const reading = isWorked ? readingOf(benchOf(state, at, settings), step.reading) : undefined
    return reading === undefined ? [] : wayTo(reading, workingOf(state, at, settings))
  }, [state, at, settings])
  if (steps.length === 0) return null
  return (
    <ol class="lesson-working" aria-label={say('lesson-working')}>
      {steps.map(({ name, formula, numbers, result }, index) => (
        <li key={index}>
          {name}: {formula} = {numbers !== result && `${inFewFigures(numbers)} = `}
          <strong>{inFewFigures(result)}</strong>
        </li>
      ))}
    </ol>
  )
}
