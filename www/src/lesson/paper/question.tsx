import type { DealtStep, LessonStep, Measured } from '../../../generated/contract'
import { say } from '../../base/words'
import { fieldOf, plotOf, readingOf, type Bench } from '../bench'
import { LimitText, partName } from '../target'

/** What a question on paper or on a wall has to know. */
export interface AskedOnPaper {
  readonly step: LessonStep
  readonly dealt: DealtStep
  readonly bench: Bench | null
  readonly measured: readonly Measured[]
}

/** What is asked, to be read: a reading, a drawer with its limits, measurements, ways. */
export function Question(asked: AskedOnPaper) {
  const { step, bench } = asked
  switch (step.kind) {
    case 'number':
    case 'magnitude':
      return <Wanted name={readingOf(bench, step.reading)?.name ?? ''} />
    case 'curve':
      return <Wanted name={plotOf(bench, step.plot)?.title ?? ''} />
    case 'target':
      return <Drawer {...asked} />
    case 'fault':
      return <Measurements {...asked} />
    default:
      return null
  }
}

function Wanted({ name }: { readonly name: string }) {
  return name === '' ? null : (
    <p class="lesson-wanted">
      <strong>{name}</strong>
    </p>
  )
}

function Drawer({ step: { drawer, limits, budget }, bench }: AskedOnPaper) {
  return (
    <>
      <ul class="lesson-limits" aria-label={say('lesson-limits')}>
        {limits.map((limit, index) => (
          <li key={index}>
            <LimitText limit={limit} bench={bench} />
          </li>
        ))}
        {budget !== null && <li>{say('lesson-budget', { budget: `${budget}` })}</li>}
      </ul>
      <ul class="lesson-boxes" aria-label={say('lesson-drawer')}>
        {drawer.map(part => (
          <li key={`${part.field} ${part.value}`}>
            {fieldOf(bench, part.field).name}:{' '}
            <strong>{say('lesson-part', { name: partName(part, bench), cost: `${part.cost}` })}</strong>
          </li>
        ))}
      </ul>
    </>
  )
}

/** What was measured: paper cannot, so it comes with all readings. */
function Measurements({ step, dealt, measured }: AskedOnPaper) {
  return (
    <>
      <table class="lesson-measures">
        <caption class="unseen">{say('lesson-measures')}</caption>
        <thead>
          <tr>
            <th scope="col">{say('lesson-measure-reading')}</th>
            <th scope="col">{say('lesson-measure-is')}</th>
            <th scope="col">{say('lesson-measure-usual')}</th>
            <th scope="col">{say('lesson-measure-tells')}</th>
          </tr>
        </thead>
        <tbody>
          {measured.map(({ reading, name, text, usual }) => (
            <tr key={reading}>
              <th scope="row">{name}</th>
              <td>{text}</td>
              <td>{usual}</td>
              <td />
            </tr>
          ))}
        </tbody>
      </table>
      <p class="lesson-wanted">
        <strong>{say('lesson-fault-name')}</strong>
      </p>
      <ul class="lesson-boxes">
        {dealt.cases.map(place => (
          <li key={place}>{step.cases[place]?.name}</li>
        ))}
      </ul>
    </>
  )
}
