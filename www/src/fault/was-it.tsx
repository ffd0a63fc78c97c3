import { say } from '../base/words'
import { getState, isEmbedded } from '../screen/store'
import type { Search } from './address'
import { go } from './search-state'
import { countedFor, countWalk } from './walks'

/** The cause that a walk was counted for on this device, and what counts it. */
export interface Counted {
  readonly cause: string | null
  readonly put: (cause: string | null) => void
}

export function countedOf(search: Search): Counted {
  const put = (cause: string | null) => {
    countWalk(search, cause)
    // Draws it, since what the browser keeps tells of no change.
    go({}, 'typing')
  }
  return { cause: countedFor(search), put }
}

/** Counts the cause on this device. */
export function WasIt({ cause, counted }: { readonly cause: string; readonly counted: Counted }) {
  if (isEmbedded(getState())) return null
  const was = counted.cause === cause
  return (
    <div class="fault-was">
      <button type="button" class="chip" aria-pressed={was} onClick={() => counted.put(was ? null : cause)}>
        {say(was ? 'fault-was-not' : 'fault-was')}
      </button>
      <span role="status">{was && say('fault-counted-here')}</span>
    </div>
  )
}
