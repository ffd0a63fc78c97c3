import type { Heard } from '../../../generated/contract'
import { say } from '../../base/words'
import { otherThan, unlikeText } from './called'
import { useLatest, type Latest } from './latest'

interface Properties {
  /** What the reader chose. */
  readonly symptom: string
  readonly sound: Latest<Heard | null>
  readonly onAgain: (symptom: string) => void
}

/** That what is heard is not what was chosen, and the way to start again with it. */
export function Unlike({ symptom, sound, onAgain }: Properties) {
  const other = otherThan(symptom, useLatest(sound))
  if (other === null) return null
  return (
    <div class="listen-unlike mind">
      <p>{unlikeText(symptom, other)}</p>
      <button type="button" class="chip" onClick={() => onAgain(other.symptom)}>
        {say('fault-listen-again', { symptom: say(`fault-symptom-${other.symptom}`) })}
      </button>
    </div>
  )
}
