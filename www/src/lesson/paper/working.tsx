import { useMemo } from 'preact/hooks'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { workingOf } from '../bench'
import type { LessonState } from '../lesson-state'

/** Kinds whose answer is a number that is worked out. */
const WORKED = ['number', 'magnitude', 'curve']

/** How the calculator finds it: formulas with their numbers; those of a rig that was told before are not told again. */
export function Working({ state, at }: { readonly state: LessonState; readonly at: number }) {
  const settings = useStore(state => state.settings)
  const { lesson, dealt } = state
  const isWorked = WORKED.includes(lesson.steps[at]?.kind ?? '')
  const before = useMemo(() => {
    const rig = (place: number) => JSON.stringify([dealt.steps[place]?.calculator, dealt.steps[place]?.values])
    return lesson.steps.findIndex(({ kind }, place) => WORKED.includes(kind) && rig(place) === rig(at))
  }, [lesson, dealt, at])
  const steps = useMemo(
    () => (isWorked && before === at ? workingOf(state, at, settings).filter(({ chain }) => !chain) : []),
    [state, at, settings, isWorked, before],
  )
  if (!isWorked) return null
  if (before < at) return <p class="hint">{say('lesson-working-above', { step: `${before + 1}` })}</p>
  return (
    <ol class="lesson-working">
      {steps.map(({ name, formula, numbers, result }, index) => (
        <li key={index}>
          {name}: {formula} = {numbers} = <strong>{result}</strong>
        </li>
      ))}
    </ol>
  )
}
