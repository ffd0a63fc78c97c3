import { fileName } from '../base/download'
import { readingsCsv } from './readings-csv'
import { ReadingView } from './reading'
import { Save } from '../base/save'
import { shownDescription } from '../screen/descriptions'
import { filling } from '../screen/shown'
import { useSeen, useSettled } from '../base/seen'
import { spreadOf } from './spread-of'
import { embedOf, getState, useStore } from '../screen/store'
import { say } from '../base/words'

/** All readings as a table. */
function csvNow(): string {
  const state = getState()
  const { good, held, settings } = state
  const description = shownDescription(state)
  if (good === null || description === undefined) return ''
  return readingsCsv({ description, good, held, settings, embed: embedOf(state) })
}

/** What else was computed. */
export function Further() {
  const [ref, seen] = useSeen()
  const further = useSettled(
    useStore(({ good }) => good?.report.further),
    seen,
  )
  const spread = useStore(state => state.spread)
  const spreading = useStore(state => state.spreading)
  if (further === undefined || further.length === 0) return null
  return (
    <section class="further" aria-labelledby="further" ref={ref}>
      <h2 id="further">{say('further')}</h2>
      <dl data-spreading={spreading}>
        {further.map(reading => (
          <ReadingView key={reading.id} reading={reading} spread={spreadOf(spread, reading)} />
        ))}
      </dl>
      <div class="tools">
        <Save
          name={say('further-csv')}
          content={csvNow}
          type="text/csv"
          file={() => fileName([filling()?.calculator ?? '', 'readings'], 'csv')}
        />
      </div>
    </section>
  )
}
