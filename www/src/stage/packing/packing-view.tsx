import { say } from '../../base/words'
import { useProject } from '../show/project'
import { PackingList } from './packing-list'
import { PrintTools } from './print-tools'

/** What the show takes along, and what of it goes on paper. */
export function PackingView() {
  const show = useProject(project => project.show)
  const totals = useProject(project => project.totals)
  return (
    <section class="packing" aria-labelledby="packing">
      <h2 id="packing">{say('stage-view-packing')}</h2>
      {show.lines.length === 0 ? (
        <p>{say('stage-no-lines')}</p>
      ) : totals === null ? (
        <p role="status">{say('stage-pack-busy')}</p>
      ) : (
        <PackingList show={show} totals={totals}>
          <PrintTools show={show} totals={totals} />
        </PackingList>
      )}
    </section>
  )
}
