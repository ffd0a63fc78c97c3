import { say } from '../base/words'
import { leave } from './launched'
import { useLesson } from './lesson-state'

/** From the end of a lesson back to the learning system that opened it. */
export function WayBack() {
  const isEnd = useLesson(state => state !== null && state.step >= state.lesson.steps.length)
  if (!isEnd) return null
  return (
    <div class="lesson">
      <div class="lesson-ways">
        <button type="button" class="chip lesson-main" onClick={leave}>
          {say('lesson-launched-back')}
        </button>
      </div>
    </div>
  )
}
