import { say } from '../base/words'
import type { Launched } from './launched'

/** What goes to the learning system, and whether it takes it. */
export function LaunchedNotice({ launched: { counts, refused } }: { readonly launched: Launched }) {
  return (
    <div class="lesson-launched">
      <p class="hint">{say(counts ? 'lesson-launched-sends' : 'lesson-launched-nothing')}</p>
      <div role="alert">
        {refused !== null && <p class="problem">{say('lesson-launched-refused', { why: refused })}</p>}
      </div>
    </div>
  )
}
