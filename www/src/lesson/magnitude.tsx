import { useId } from 'preact/hooks'
import { say } from '../base/words'
import { useStore } from '../screen/store'
import { readingOf } from './bench'
import { decadesOf, decadeText } from './decades'
import { respond } from './lesson-state'
import type { Asked } from './step'

/** The power of ten of a reading. */
export function MagnitudeAnswer({ step, bench, response }: Asked) {
  const settings = useStore(state => state.settings)
  const group = useId()
  const reading = readingOf(bench, step.reading)
  if (reading === undefined) return <p class="lesson-unknown">{say('lesson-no-reading')}</p>
  return (
    <fieldset class="lesson-magnitude">
      <legend>{reading.name}</legend>
      <div class="choices">
        {decadesOf(reading).map(decade => (
          <label key={decade}>
            <input
              type="radio"
              name={group}
              value={decade}
              checked={response.decade === decade}
              onChange={() => respond({ decade })}
            />
            <span>{decadeText(decade, reading, settings)}</span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}
