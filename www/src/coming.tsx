import { say } from './base/words'
import { Missing } from './missing'
import { bringWhole } from './screen/opening'
import { useStore } from './screen/store'

/** In the place of what the whole engine shows, until that has come. */
export function Coming() {
  const failed = useStore(({ whole }) => whole === 'missing')
  return failed ? (
    <Missing later={{ failed, again: () => void bringWhole() }} />
  ) : (
    <p class="notice" role="status">
      {say('whole-coming')}
    </p>
  )
}
