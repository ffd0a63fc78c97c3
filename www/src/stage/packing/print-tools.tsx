import { useState } from 'preact/hooks'
import type { Show, Totals } from '../../../generated/contract'
import { say } from '../../base/words'
import { askStage } from '../../engine/stage'
import { getState } from '../../screen/store'
import { getProject } from '../show/project'
import { Labels } from './labels'
import { PackingList } from './packing-list'
import { PaperHead } from './paper-head'
import { printOn } from '../../share/print-out'
import { Sheet } from './sheet'
import { useWholeLines, type WholeLines } from './whole-lines'

interface Properties {
  readonly show: Show
  readonly totals: Totals
}

/** What of the show goes on paper. */
export function PrintTools({ show, totals }: Properties) {
  const [refused, setRefused] = useState(false)
  const texts = useWholeLines(show)
  const print = (printed: boolean) => setRefused(!printed)
  const printSheet = async (texts: WholeLines) => {
    const stops = await stopsOf(show)
    print(printOn(<Sheet show={show} rows={getProject().rows} totals={totals} texts={texts} stops={stops} />))
  }
  const printList = () =>
    print(
      printOn(
        <article>
          <PaperHead show={show} title={say('stage-view-packing')} />
          <PackingList show={show} totals={totals} />
        </article>,
      ),
    )
  return (
    <div class="tools">
      <button
        type="button"
        class="chip"
        disabled={texts === null}
        onClick={() => texts !== null && void printSheet(texts)}
      >
        {say('stage-print-sheet')}
      </button>
      <button type="button" class="chip" onClick={printList}>
        {say('stage-print-list')}
      </button>
      <button
        type="button"
        class="chip"
        disabled={texts === null}
        onClick={() => texts !== null && print(printOn(<Labels show={show} totals={totals} texts={texts} />))}
      >
        {say('stage-print-labels')}
      </button>
      <span role="status">{refused && say('print-refused')}</span>
    </div>
  )
}

/** What the ground map says has to be seen to first; one set is enough for that. */
async function stopsOf(show: Show): Promise<readonly string[]> {
  try {
    return (await askStage('stage_map', show, 1, getState().settings)).stops
  } catch {
    return []
  }
}
