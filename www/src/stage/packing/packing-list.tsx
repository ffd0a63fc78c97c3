import type { Show, Totals } from '../../../generated/contract'
import { say } from '../../base/words'
import { missingOf } from './missing'
import { Leads, Parts } from './parts'
import { usePrint } from './printed'
import { Supplies } from './supplies'

/** What the show takes along, what is missing first. */
export function PackingList({ show, totals }: { readonly show: Show; readonly totals: Totals }) {
  const { length, current } = usePrint()
  const missing = missingOf(totals, length)
  return (
    <div class="packing-list">
      <p class="missing" data-tone={missing.length > 0 ? 'trouble' : 'fine'}>
        <strong>
          {missing.length > 0
            ? say('stage-pack-lacks', { parts: missing.join(', ') })
            : say(
                totals.parts.some(({ have }) => have === null)
                  ? 'stage-pack-lacks-none-counted'
                  : 'stage-pack-lacks-none',
              )}
        </strong>
      </p>
      <Parts parts={totals.parts} />
      {totals.leads.length > 0 && <Leads leads={totals.leads} length={length} />}
      <Supplies show={show} totals={totals} current={current} />
    </div>
  )
}
