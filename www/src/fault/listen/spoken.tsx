import type { Heard } from '../../../generated/contract'
import { useStore } from '../../screen/store'
import { otherThan, unlikeText } from './called'
import { useLatest, type Latest } from './latest'
import { briefly, firstFamily } from './told'
import { useSpoken } from './use-spoken'

interface Properties {
  /** What the reader says is heard. */
  readonly symptom: string
  readonly sound: Latest<Heard | null>
}

/** Reads out what is heard, when it is something else; nothing of what is no longer heard. */
export function Spoken({ symptom, sound }: Properties) {
  const settings = useStore(state => state.settings)
  const heard = useLatest(sound)
  const other = otherThan(symptom, heard)
  const sign = heard === null ? '' : `${firstFamily(heard)} ${heard.flaw} ${heard.mains !== null} ${other !== null}`
  const unlike = other === null ? '' : `. ${unlikeText(symptom, other)}`
  return (
    <p class="unseen" role="status">
      {useSpoken(sign, heard === null ? '' : `${briefly(heard, settings)}${unlike}`)}
    </p>
  )
}
