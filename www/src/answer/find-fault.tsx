import { writeFaultOf } from '../screen/fault-line'
import { embedOf, useStore } from '../screen/store'
import { say } from '../base/words'

/** The way from a whole line to the finder of its faults. */
export function FindFault() {
  const filling = useStore(({ place }) => (place.kind === 'calculator' ? place.filling : null))
  const inLesson = useStore(state => embedOf(state) !== null)
  const settings = useStore(state => state.settings)
  if (filling === null || inLesson) return null
  return (
    <p class="find-fault">
      <a class="chip" href={writeFaultOf(filling.current, settings)}>
        {say('seek-line')}
      </a>
    </p>
  )
}
