import { say } from '../base/words'
import { Missing } from '../base/missing'
import { bringWhole } from '../screen/opening'
import { useStore, type State } from '../screen/store'
import { hasCalculator } from '../engine/engine'

/** Whether the screen cannot be shown before the whole engine has come. */
export function isComing({ place, whole }: State): boolean {
  if (place.kind === 'calculator') return !hasCalculator(place.filling.calculator)
  return place.kind === 'entry' && whole !== 'here'
}

/** In the place of what the whole engine shows, until that has come. */
export function Coming() {
  const failed = useStore(({ whole }) => whole === 'missing')
  return failed ? (
    <Missing later={{ failed, again: () => void bringWhole() }} />
  ) : (
    <p class="hint" role="status">
      {say('whole-coming')}
    </p>
  )
}
