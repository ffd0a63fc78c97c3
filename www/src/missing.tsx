import { say } from './base/words'
import type { Later } from './use-more'

/** Says in its place that a piece of the page did not come, with a button to try again. */
export function Missing({ later: { failed, again } }: { readonly later: Pick<Later, 'failed' | 'again'> }) {
  return (
    <div class="missing" role="status">
      {failed && (
        <p class="notice">
          {say('more-missing')}{' '}
          <button type="button" class="chip" onClick={again}>
            {say('more-again')}
          </button>
        </p>
      )}
    </div>
  )
}
