import type { ComponentChildren } from 'preact'
import type { Show, Totals, Verdict } from '../../../generated/contract'
import { VerdictView } from '../../answer/reading'
import { say } from '../../base/words'
import { Leads, lengthsOf } from './lead-tables'
import { missingOf } from './missing'
import { lineById } from './names'
import { OtherLeads } from './other-leads'
import { Parts } from './parts'
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
      <div class="besides">
        <Parts parts={totals.parts} />
        {totals.leads.length > 0 && <Leads leads={totals.leads} length={length} line={id => lineById(show, id)} />}
      </div>
      <div class="besides">
        <OtherLeads show={show} totals={totals} />
        <Supplies show={show} totals={totals} current={current} />
      </div>
    </div>
  )
}

function lack({ parts, leads }: Totals, missing: readonly string[]): Verdict {
  if (missing.length > 0) return { tone: 'trouble', text: say('stage-pack-lacks', { parts: missing.join(', ') }) }
  const counted = [...parts, ...leads.flatMap(lengthsOf)]
  if (counted.some(({ have }) => have === null)) return { tone: 'watch', text: say('stage-pack-lacks-none-counted') }
  return { tone: 'fine', text: say('stage-pack-lacks-none') }
}
