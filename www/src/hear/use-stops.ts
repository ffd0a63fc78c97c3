import { useEffect } from 'preact/hooks'
import { takeEscape } from '../base/escape'

/** What plays. */
export interface Stoppable {
  /** Whether it is heard, or will be. */
  readonly isOn: boolean
  stop(): void
  /** The same where nobody sees any more that it is on. */
  hide(): void
}

/** Ends a sound by a key, and where nobody sees that it is on. */
export function useStops(player: Stoppable): void {
  useEffect(() => {
    // Before anything else that the key closes.
    const escape = (event: KeyboardEvent) => player.isOn && takeEscape(event) && player.stop()
    const left = () => player.isOn && player.hide()
    const hidden = () => document.hidden && left()
    document.addEventListener('keydown', escape, true)
    document.addEventListener('visibilitychange', hidden)
    addEventListener('pagehide', left)
    return () => {
      document.removeEventListener('keydown', escape, true)
      document.removeEventListener('visibilitychange', hidden)
      removeEventListener('pagehide', left)
    }
  }, [player])
}
