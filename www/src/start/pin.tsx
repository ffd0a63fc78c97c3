import { useState } from 'preact/hooks'
import { pin, pinned } from '../screen/at-hand'
import { currentHash } from '../screen/shown'
import { say } from '../base/words'

/** Puts a calculator, with its values, on top of the start screen, or takes it from there. */
export function Pin({ calculator }: { readonly calculator: string }) {
  const [on, setOn] = useState(() => pinned().includes(calculator))
  return (
    <button
      type="button"
      class="pin"
      aria-pressed={on}
      aria-label={say('pin')}
      title={say('pin')}
      onClick={() => {
        setOn(!on)
        pin(calculator, on ? null : currentHash())
      }}
    >
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path d="M8 3h8l-1 7 3 4H6l3-4ZM12 14v7" />
      </svg>
    </button>
  )
}
