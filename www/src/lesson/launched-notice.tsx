import { say } from '../base/words'
import { backToRun, hasOtherRun, standingOf, useLaunched } from './launched'
import { useLesson } from './lesson-state'

/** What goes to the learning system, and whether it takes it. */
export function LaunchedNotice() {
  const launched = useLaunched()
  const state = useLesson(state => state)
  const { refused } = launched
  const standing = standingOf(launched, state)
  return (
    <div class="lesson lesson-launched">
      <p class="hint" role="status">
        {(standing !== 'finished' || refused === null) && say(`lesson-launched-${standing}`)}
      </p>
      {hasOtherRun(launched, state) && (
        <p>
          <button type="button" class="chip" onClick={() => void backToRun()}>
            {say('lesson-launched-first')}
          </button>
        </p>
      )}
      <div role="alert">
        {refused !== null && <p class="problem">{say('lesson-launched-refused', { why: refused })}</p>}
      </div>
    </div>
  )
}
