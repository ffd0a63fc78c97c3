import type { CauseOdds } from '../../generated/contract'
import { say } from '../base/words'
import { WasIt } from './found'
import { causeName, cureOf, percent } from './said'

/** So many cures are worth a try. */
const TRIED = 4

/** Nothing tells more: the likeliest causes, each with its cure, in the order to try them. */
export function Left({ odds }: { readonly odds: readonly CauseOdds[] }) {
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
            <WasIt cause={cause} />
          </li>
        ))}
      </ol>
    </section>
  )
}
