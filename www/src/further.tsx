import { ReadingView } from './reading'
import { useSeen, useSettled } from './seen'
import { spreadOf } from './spread'
import { useStore } from './store'
import { say } from './words'

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
    </section>
  )
}
