import { useState } from 'preact/hooks'
import { pin, pinned } from './at-hand'
import { say } from './words'

/** Puts a calculator on top of the start screen, or takes it from there. */
export function Pin({ calculator }: { readonly calculator: string }) {
  const [on, setOn] = useState(() => pinned().includes(calculator))
  return (
    <button
      type="button"
      class="quiet pin"
      aria-pressed={on}
      onClick={() => {
        setOn(!on)
        pin(calculator, !on)
      }}
    >
      {say(on ? 'pin-on' : 'pin-off')}
    </button>
  )
}
