import type { CauseOdds } from '../../generated/contract'
import { percent } from '../base/percent'
import { say } from '../base/words'
import type { Search } from './address'
import { causeName, cureOf } from './said'
import { countedOf, WasIt } from './was-it'

/** So many cures are worth a try. */
const TRIED = 4

interface Properties {
  readonly odds: readonly CauseOdds[]
  readonly search: Search
}

/** Nothing tells more: the likeliest causes, each with its cure, in the order to try them. */
export function Left({ odds, search }: Properties) {
  const counted = countedOf(search)
  const cures = odds.filter(({ cure }, at) => odds.findIndex(other => other.cure === cure) === at).slice(0, TRIED)
  return (
    <section class="fault-left" aria-labelledby="fault-left">
      <h2 id="fault-left" tabIndex={-1} data-focus>
        {say('fault-left')}
      </h2>
      <p>{say('fault-left-try')}</p>
      <ol>
        {cures.map(({ cause, share }) => (
          <li key={cause}>
            <strong>{causeName(cause)}</strong> {percent(share)}
            <p>{cureOf(cause)}</p>
            <WasIt cause={cause} counted={counted} />
          </li>
        ))}
      </ol>
    </section>
  )
}
