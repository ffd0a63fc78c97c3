import { within } from '../base/within'
import { say } from '../base/words'
import type { Search } from './address'
import { NOTHING } from './address'
import { go } from './search-state'
import { forgetReplaced } from './switch-symptom'
import { undo } from './undo'

/** What was said so far in short, the way a step back and to the beginning; and what to do once it gets dangerous. */
export function Way({ search: { symptom, scope } }: { readonly search: Search }) {
  const startOver = () => {
    forgetReplaced()
    go({ symptom: '', scope: '', done: NOTHING.done, now: '' })
  }
  return (
    <div class="fault-way">
      <p>
        <strong>{say(`fault-symptom-${symptom}`)}</strong>
        {scope !== '' && <>, {within(say(`fault-scope-${scope}`))}</>}
      </p>
      <button type="button" class="quiet" onClick={undo}>
        {say('undo')}
      </button>
      <button type="button" class="quiet" onClick={startOver}>
        {say('fault-start-over')}
      </button>
      <button type="button" class="quiet fault-alarm" title={say('fault-danger')} onClick={() => go({ danger: true })}>
        {say('fault-alarm')}
      </button>
    </div>
  )
}
