import type { ComponentChildren } from 'preact'
import type { Show, Totals, Verdict } from '../../../generated/contract'
import { VerdictView } from '../../answer/reading'
import { say } from '../../base/words'
import { missingOf } from './missing'
import { Leads, Parts } from './parts'
import { usePrint } from './printed'
import { Supplies } from './supplies'

interface Properties {
  readonly show: Show
  readonly totals: Totals
  /** What stands behind what is missing. */
  readonly children?: ComponentChildren
}

/** What the show takes along, what is missing first. */
export function PackingList({ show, totals, children }: Properties) {
  const { length, current } = usePrint()
  const missing = missingOf(totals, length)
  return (
    <div class="packing-list">
      <p class="lacking">
        <VerdictView verdict={lack(totals, missing)} />
      </p>
      {children}
      <Parts parts={totals.parts} />
      <div class="besides">
        {totals.leads.length > 0 && <Leads leads={totals.leads} length={length} />}
        <Supplies show={show} totals={totals} current={current} />
      </div>
    </div>
  )
}

function lack({ parts }: Totals, missing: readonly string[]): Verdict {
  if (missing.length > 0) return { tone: 'trouble', text: say('stage-pack-lacks', { parts: missing.join(', ') }) }
  if (parts.some(({ have }) => have === null)) return { tone: 'watch', text: say('stage-pack-lacks-none-counted') }
  return { tone: 'fine', text: say('stage-pack-lacks-none') }
}
