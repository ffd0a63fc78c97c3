import { say } from '../base/words'
import type { Search } from './address'
import { NOTHING } from './address'
import { within } from './said'
import { go, undo } from './search-state'

/** What was said so far in short, the way a step back and to the beginning; and what to do once it gets dangerous. */
export function Way({ search: { symptom, scope } }: { readonly search: Search }) {
  return (
    <div class="fault-way">
      <p>
        <strong>{say(`fault-symptom-${symptom}`)}</strong>
        {scope !== '' && <>, {within(say(`fault-scope-${scope}`))}</>}
      </p>
      <button type="button" class="quiet" onClick={undo}>
        {say('undo')}
      </button>
      <button type="button" class="quiet" onClick={() => go({ symptom: '', scope: '', done: NOTHING.done, now: '' })}>
        {say('fault-start-over')}
      </button>
      <button type="button" class="quiet fault-alarm" title={say('fault-danger')} onClick={() => go({ danger: true })}>
        {say('fault-alarm')}
      </button>
    </div>
  )
}
