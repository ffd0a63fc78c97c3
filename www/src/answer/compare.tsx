import type { Description, Report } from '../../generated/contract'
import { setNames } from '../plot/curves'
import { drop, hold, swap } from '../screen/screen'
import { useStore } from '../screen/store'
import { readingsOf, textIn } from './compared'
import { Wide } from '../base/wide'
import { say } from '../base/words'

/** The held value sets beside the present one, reading by reading. */
export function Compare({ description }: { readonly description: Description }) {
  const held = useStore(state => state.held)
  const good = useStore(({ good, held }) => (held.length > 0 ? good : null))
  const plotted = useStore(({ good }) => Boolean(good?.report.plots.length))
  if (good === null) {
    return plotted ? null : (
      <div class="tools">
        <button type="button" class="chip" onClick={hold}>
          {say('hold-values')}
        </button>
      </div>
    )
  }
  const names = setNames(description, good, held)
  return (
    <section class="compare" aria-labelledby="compare">
      <h2 id="compare">{say('compare')}</h2>
      <ul class="held">
        {held.map((_, index) => (
          <HeldSet key={index} index={index} name={names[index + 1]?.join(', ') ?? ''} />
        ))}
      </ul>
      <Wide name={say('compare')}>
        <Table names={names} reports={[good.report, ...held.map(({ report }) => report)]} />
      </Wide>
    </section>
  )
}

/** A held value set, with what can be done with it. */
function HeldSet({ index, name }: { readonly index: number; readonly name: string }) {
  return (
    <li data-held={index + 1}>
      <Swatch set={index + 1} />
      <span>{name}</span>
      <button type="button" class="chip" aria-label={say('held-use-named', { held: name })} onClick={() => swap(index)}>
        {say('held-use')}
      </button>
      <button
        type="button"
        class="chip"
        aria-label={say('held-drop-named', { held: name })}
        onClick={() => drop(index)}
      >
        {say('held-drop')}
      </button>
    </li>
  )
}

interface TableProperties {
  /** What each value set is, in words. */
  readonly names: readonly (readonly string[])[]
  /** The report of each, the present one first. */
  readonly reports: readonly (Report | null)[]
}

/** The readings of the present values, a row each, and what they are in the other value sets. */
function Table({ names, reports }: TableProperties) {
  return (
    <table>
      <caption class="unseen">{say('compare')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('reading')}</th>
          {names.map((lines, set) => (
            <th key={set} scope="col">
              <Swatch set={set} />
              {lines.join(', ')}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {readingsOf(reports[0]).map(reading => (
          <tr key={reading.id}>
            <th scope="row">{reading.name}</th>
            {reports.map((report, set) => (
              <td key={set}>{textIn(report, reading)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Swatch({ set }: { readonly set: number }) {
  return (
    <svg class="swatch" viewBox="0 0 32 8" aria-hidden="true">
      <path class="curve" data-set={set} d="M1 4H31" />
    </svg>
  )
}
