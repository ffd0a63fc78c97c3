import { say } from '../base/words'
import type { Search } from './address'
import { Again } from './again'
import { LinePanel } from './line-panel'
import { go } from './search-state'
import { SCOPES, SYMPTOMS } from './symptoms'

/** The first question of all, then what is heard. */
export function Start({ search }: { readonly search: Search }) {
  return (
    <>
      <section class="fault-danger" aria-labelledby="fault-danger">
        <h2 id="fault-danger" tabIndex={-1} data-focus>
          {say('fault-danger')}
        </h2>
        <button type="button" onClick={() => go({ danger: true })}>
          {say('fault-danger-yes')}
        </button>
      </section>
      <section class="fault-heard" aria-labelledby="fault-heard">
        <h2 id="fault-heard">{say('fault-heard')}</h2>
        <div class="fault-symptoms">
          {SYMPTOMS.map(id => (
            <button key={id} type="button" data-symptom={id} onClick={() => go({ symptom: id })}>
              <span>{say(`fault-symptom-${id}`)}</span>
              <span class="hint">{say(`fault-symptom-${id}-hint`)}</span>
            </button>
          ))}
        </div>
      </section>
      <Again search={search} />
      <LinePanel search={search} />
    </>
  )
}

/** On how much of the desk; and on which line, which most know by a name. */
export function ScopeQuestion({ search }: { readonly search: Search }) {
  return (
    <section aria-labelledby="fault-scope">
      <h2>{say('fault-line-which')}</h2>
      <LinePanel search={search} chips />
      <h2 id="fault-scope" tabIndex={-1} data-focus>
        {say('fault-scope')}
      </h2>
      <div class="fault-outcomes" data-wide>
        {SCOPES.map(id => (
          <button key={id} type="button" data-scope={id} onClick={() => go({ scope: id })}>
            {say(`fault-scope-${id}`)}
          </button>
        ))}
      </div>
    </section>
  )
}
