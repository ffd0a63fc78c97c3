import { say } from '../base/words'
import { useLesson } from './lesson-state'

/** What there is to know of the open lesson beside itself: that nothing is kept, and that its link is odd. */
export function ToldOfOpening({ what }: { readonly what: string }) {
  const kept = useLesson(state => state?.kept ?? true)
  const odd = useLesson(state => (state?.what === what ? state.odd : ''))
  const seed = useLesson(state => state?.seed ?? 0)
  return (
    <div class="lesson-told" role="status">
      {odd !== '' && <p class="notice">{say('lesson-link-seed', { odd, seed: `${seed}` })}</p>}
      {!kept && <p class="notice">{say('lesson-not-kept')}</p>}
    </div>
  )
}
