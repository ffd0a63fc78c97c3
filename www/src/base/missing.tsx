import { say } from './words'

interface Properties {
  readonly later: {
    readonly failed: boolean
    /** Asks for it again. */
    readonly again: () => void
  }
}

/** Says in its place that a piece of the page did not come, with a button to try again. */
export function Missing({ later: { failed, again } }: Properties) {
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
