import type { ComponentChildren } from 'preact'
import { Missing } from '../base/missing'
import { say } from '../base/words'
import { hasCalculator } from '../engine/engine'
import { bringWhole } from '../screen/opening'
import { useStore, type State } from '../screen/store'

/** Whether the screen cannot be shown before the whole engine has come. */
export function isComing({ place, whole }: State): boolean {
  if (place.kind === 'calculator') return !hasCalculator(place.filling.calculator)
  return place.kind === 'entry' && whole !== 'here'
}

/** In the place of what the whole engine shows, until that has come. */
export function Coming() {
  return (
    <div class="hint" role="status">
      <Awaiting>{say('whole-coming')}</Awaiting>
    </div>
  )
}

/** What is said while the whole engine is at work or on its way; where it did not come, that, and a button to try again. */
export function Awaiting({ children }: { readonly children: ComponentChildren }) {
  const failed = useStore(({ whole }) => whole === 'missing')
  return failed ? <Missing later={{ failed, again: () => void bringWhole() }} /> : <p>{children}</p>
}
