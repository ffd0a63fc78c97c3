import { isText, load } from '../base/kept'
import { say } from '../base/words'
import { readPlace } from '../screen/link'
import { getState, isEmbedded } from '../screen/store'
import { readSearch, type Search } from './address'
import { LAST } from './search-state'

/** The way back to a search that was left, where a new one has not begun. */
export function Again({ search }: { readonly search: Search }) {
  const hash = isEmbedded(getState()) ? null : load(LAST, isText)
  const place = hash === null ? null : readPlace(hash)
  if (hash === null || place?.kind !== 'fault' || search.done.length > 0) return null
  const { symptom, done } = readSearch(place.rest)
  if (symptom === '' || done.length === 0) return null
  return (
    <p>
      <a class="chip" href={hash}>
        {say('fault-again', { symptom: say(`fault-symptom-${symptom}`), count: `${done.length}` })}
      </a>
    </p>
  )
}
