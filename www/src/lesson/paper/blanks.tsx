import { say } from '../../base/words'
import { useStore } from '../../screen/store'
import { readingOf } from '../bench'
import { decadesOf, decadeText } from '../decades'
import { EmptyAxes } from './empty-axes'
import type { AskedOnPaper } from './question'

/** Where the answer to a step is written by hand, and how sure one is of it. */
export function Blanks(asked: AskedOnPaper) {
  return (
    <>
      <Blank {...asked} />
      <ul class="lesson-boxes lesson-sure-boxes" aria-label={say('lesson-sure')}>
        <li data-heading>{say('lesson-sure')}</li>
        {[1, 2, 3].map(sure => (
          <li key={sure}>{say(`lesson-sure-${sure}`)}</li>
        ))}
      </ul>
    </>
  )
}

function Blank({ step, dealt, bench }: AskedOnPaper) {
  const settings = useStore(state => state.settings)
  switch (step.kind) {
    case 'number':
      return <p class="lesson-line">{say('lesson-your-answer')}</p>
    case 'magnitude': {
      const reading = readingOf(bench, step.reading)
      if (reading === undefined) return null
      return (
        <ul class="lesson-boxes">
          {decadesOf(reading).map(decade => (
            <li key={decade}>{decadeText(decade, reading, settings)}</li>
          ))}
        </ul>
      )
    }
    case 'curve':
      return <EmptyAxes step={step} bench={bench} />
    case 'target':
      return <p class="lesson-line">{say('lesson-cost-blank')}</p>
    case 'choice':
      return (
        <>
          <p class="hint">{say('lesson-number-ways')}</p>
          <ul class="lesson-boxes lesson-numbers">
            {dealt.ways.map(({ id, name }) => (
              <li key={id}>{name}</li>
            ))}
          </ul>
        </>
      )
    default:
      return null
  }
}
