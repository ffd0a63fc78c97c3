import type { ComponentChildren } from 'preact'
import { useEffect, useState } from 'preact/hooks'
import type { Marked } from '../../generated/contract'
import { Problem } from '../base/problem'
import { choices, Segments } from '../base/segments'
import { say } from '../base/words'
import { commit, respond } from './lesson-state'
import { ordered } from './choice'
import type { Asked } from './step'

const COMMIT = 'lesson-commit'

/** Enter in an input does what the button does. */
export function commitByEnter(event: KeyboardEvent): void {
  if (event.key !== 'Enter' || event.isComposing) return
  event.preventDefault()
  document.getElementById(COMMIT)?.click()
}

const SURE = ['1', '2', '3'] as const

/** How sure the learner is, then the answer counts; what is wrong with it is said, and it does not. */
export function Commit({ step, dealt, response, children }: Asked & { readonly children: ComponentChildren }) {
  const [problem, setProblem] = useState<Marked['problem']>(null)
  const [isWarned, setWarned] = useState(false)
  // It was about what stood there before.
  const { text, decade, curve, parts, case: named, order, heard, seen, sure } = response
  useEffect(() => setProblem(null), [text, decade, curve, parts, named, order, heard, seen, sure])
  const commitNow = async () => {
    if (sure === null) {
      setProblem({ message: say('lesson-say-sure'), offers: [] })
      return
    }
    if (step.kind === 'choice' && order.length === 0) {
      // As they were shuffled they are hardly meant, unless one insists.
      if (!isWarned) {
        setWarned(true)
        setProblem({ message: say('lesson-order-first'), offers: [] })
        return
      }
      respond({ order: ordered(dealt, response).map(({ id }) => id) })
    }
    const problem = await commit()
    setProblem(problem)
  }
  return (
    // No form: the frame of a learning system may send none.
    <div class="lesson-commit">
      <div role="alert">{problem !== null && <Problem problem={problem} onTake={text => respond({ text })} />}</div>
      <Segments
        name="sure"
        legend={say('lesson-sure')}
        options={choices('lesson-sure', SURE)}
        value={sure === null ? '' : (`${sure}` as string)}
        onChoose={id => respond({ sure: Number(id) })}
      />
      <div class="lesson-commits">
        <button type="button" id={COMMIT} class="lesson-main" onClick={() => void commitNow()}>
          {say('lesson-commit')}
        </button>
        {children}
      </div>
    </div>
  )
}
