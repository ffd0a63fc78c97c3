import type { PhantomTotal, Show, Totals, Verdict } from '../../../generated/contract'
import { VerdictView } from '../../answer/reading'
import { say } from '../../base/words'
import { equipmentName } from './names'

interface Properties {
  readonly show: Show
  readonly totals: Totals
  readonly current: (amperes: number) => string
}

/** Phantom by the equipment that feeds it, and batteries. */
export function Supplies({ show, totals, current }: Properties) {
  const { phantom, box_batteries, equipment_batteries } = totals
  return (
    <>
      <section>
        <h3>{say('stage-pack-phantom')}</h3>
        {phantom.length === 0 && <p>{say('stage-pack-no-phantom')}</p>}
        <ul class="supplies">
          {phantom.map(supply => (
            <Supply key={supply.equipment} show={show} supply={supply} current={current} />
          ))}
        </ul>
      </section>
      <section>
        <h3>{say('stage-pack-batteries')}</h3>
        <dl class="counts">
          <div>
            <dt>{say('stage-pack-box-batteries')}</dt>
            <dd>{box_batteries}</dd>
          </div>
          <div>
            <dt>{say('stage-pack-equipment-batteries')}</dt>
            <dd>{equipment_batteries}</dd>
          </div>
        </dl>
      </section>
    </>
  )
}

/** Beyond this part of what it can give, a supply has little to spare. */
const FULL = 0.8
const WIDTH = 100

interface SupplyProperties extends Pick<Properties, 'show' | 'current'> {
  readonly supply: PhantomTotal
}

function Supply({ show, supply, current }: SupplyProperties) {
  const { equipment, lines, most } = supply
  const name = equipment === '' ? say('stage-pack-no-supply') : equipmentName(show, equipment)
  const verdict = loadOf(supply, current)
  return (
    <li>
      <p>
        <strong>{name}</strong>{' '}
        {say('stage-pack-phantom-takes', { lines: `${lines}`, current: current(supply.current) })}
      </p>
      {most !== null && most > 0 && (
        <svg
          class="load"
          data-tone={verdict.tone}
          viewBox={`0 0 ${WIDTH} 6`}
          preserveAspectRatio="none"
          aria-hidden="true"
        >
          <rect class="most" width={WIDTH} height="6" />
          <rect class="taken" width={WIDTH * Math.min(supply.current / most, 1)} height="6" />
        </svg>
      )}
      <VerdictView verdict={verdict} />
    </li>
  )
}

/** What a supply has to give, against what is asked of it. */
function loadOf({ current: taken, most }: PhantomTotal, current: (amperes: number) => string): Verdict {
  if (most === null) return { tone: 'watch', text: say('stage-pack-phantom-unknown') }
  const told = { most: current(most), spare: current(Math.abs(most - taken)) }
  if (taken > most) return { tone: 'trouble', text: say('stage-pack-phantom-over', told) }
  return { tone: taken > FULL * most ? 'watch' : 'fine', text: say('stage-pack-phantom-fits', told) }
}
