import type { CauseOdds } from '../../generated/contract'
import { percent } from '../base/percent'
import { say } from '../base/words'
import { causeName } from './said'

/** So many causes stand in the open. */
const SHOWN = 5
/** A share that changed by less than this has not moved. */
const MOVED = 1.25

/** How probable each cause is. */
export function Odds({ odds }: { readonly odds: readonly CauseOdds[] }) {
  if (odds.length === 0) return null
  const rest = odds.slice(SHOWN)
  return (
    <section class="fault-odds" aria-labelledby="fault-odds">
      <h2 id="fault-odds">
        {say('fault-odds')} <span class="fault-kind">{say('fault-judged')}</span>
      </h2>
      <ol>
        {odds.slice(0, SHOWN).map((one, place) => (
          <Bar key={one.cause} odds={one} first={place === 0} />
        ))}
      </ol>
      {rest.length > 0 && (
        <details>
          <summary>{say('fault-odds-rest', { count: `${rest.length}` })}</summary>
          <ol>
            {rest.map(one => (
              <Bar key={one.cause} odds={one} first={false} />
            ))}
          </ol>
        </details>
      )}
    </section>
  )
}

function Bar({ odds: { cause, share, before }, first }: { readonly odds: CauseOdds; readonly first: boolean }) {
  const moved = share > before * MOVED ? 'up' : share * MOVED < before ? 'down' : null
  return (
    <li data-cause={cause}>
      <span class="fault-cause">
        {causeName(cause)}
        {first && <span class="fault-kind">{say('fault-odds-first')}</span>}
      </span>
      <span class="fault-share">
        {moved !== null && (
          <span class="hint">
            <span aria-hidden="true">{moved === 'up' ? '▲' : '▼'}</span> {say(`fault-odds-${moved}`)}
          </span>
        )}{' '}
        <strong>{percent(share)}</strong>
      </span>
      <span class="fault-bar" aria-hidden="true">
        <span style={{ inlineSize: `${100 * share}%` }} />
      </span>
    </li>
  )
}
