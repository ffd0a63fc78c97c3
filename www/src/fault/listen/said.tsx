import type { Heard } from '../../../generated/contract'
import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { useLatest, type Latest } from './latest'
import { fixed, mainsText, sentences } from './told'

interface Properties {
  readonly sound: Latest<Heard | null>
  /** Whether it changes while it is read. */
  readonly isLive: boolean
}

/** No converter gives more, dBFS: what is louder is samples of something else. */
const LOUDEST = 20

/** What is heard, in sentences. */
export function Said({ sound, isLive }: Properties) {
  const heard = useLatest(sound)
  const settings = useStore(state => state.settings)
  if (heard === null) return <p class="hint">{say('fault-listen-wait')}</p>
  // What changes each second is not read to a tenth of a decibel.
  const digits = isLive ? 0 : 1
  const mains = mainsText(heard, settings)
  return (
    <div class="listen-said">
      {mains !== null && <p class="listen-mains">{mains}</p>}
      {sentences(heard, settings).map((text, place) => (
        <p key={place}>{text}</p>
      ))}
      <p class="hint">
        {say(heard.level > LOUDEST ? 'fault-listen-levels-odd' : 'fault-listen-levels', {
          level: fixed(heard.level, digits, settings),
          noise: fixed(heard.noise, digits, settings),
          seconds: fixed(heard.seconds, digits, settings),
          most: fixed(LOUDEST, 0, settings),
        })}
      </p>
    </div>
  )
}
