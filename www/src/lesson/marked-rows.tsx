import type { Marked, MarkedRow } from '../../generated/contract'
import { say } from '../base/words'
import { bound } from './bound'
import type { Asked } from './step'

type Properties = Asked & { readonly marked: Marked }

/** What was said beside what is so, one thing a row: what one has to see to believe the verdict. */
export function MarkedRows({ step, response, marked: { rows } }: Properties) {
  if (rows.length === 0) return null
  if (step.kind === 'choice') return <Order rows={rows} />
  if (step.kind === 'ear') return <Differences rows={rows} />
  const fault = bound(step.cases[response.case ?? -1]?.name ?? '')
  const heads =
    step.kind === 'fault'
      ? [say('lesson-measure-is'), say('lesson-with-fault', { fault })]
      : [say('lesson-limit'), say('lesson-yours')]
  const kind = step.kind === 'fault' ? 'fault' : 'target'
  return (
    <table class="lesson-measures lesson-rows">
      <caption class="unseen">{say(kind === 'fault' ? 'lesson-measures' : 'lesson-limits')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('lesson-measure-reading')}</th>
          {heads.map(head => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, at) => (
          <tr key={at} data-fits={row.fits}>
            <th scope="row">{row.name}</th>
            {kind === 'target' && at >= step.limits.length ? (
              // What else is wrong has no limit, but more to say.
              <td colSpan={2}>
                <Mark fits={row.fits} kind={kind} /> {row.is}: {row.other}
              </td>
            ) : (
              <>
                <td>{kind === 'fault' ? row.is : row.other}</td>
                <td>
                  <Mark fits={row.fits} kind={kind} /> {kind === 'fault' ? row.other : row.is}
                </td>
              </>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** How two rigs differ, band by band and reading by reading. */
function Differences({ rows }: { readonly rows: readonly MarkedRow[] }) {
  return (
    <table class="lesson-measures lesson-rows">
      <caption class="unseen">{say('lesson-ear-differences')}</caption>
      <thead>
        <tr>
          <th scope="col">{say('lesson-measure-reading')}</th>
          <th scope="col">{say('lesson-ear-letter-a')}</th>
          <th scope="col">{say('lesson-ear-letter-b')}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ id, name, is, other, fits }) => (
          // What is alike is neither right nor wrong.
          <tr key={id} data-alike={fits}>
            <th scope="row">{name}</th>
            <td colSpan={other === '' ? 2 : 1}>{is}</td>
            {other !== '' && <td>{other}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** The right order, and where each was put. */
function Order({ rows }: { readonly rows: readonly MarkedRow[] }) {
  return (
    <ol class="lesson-ranks" aria-label={say('lesson-right-order')}>
      {rows.map(({ id, name, is, place, rank, fits }) => (
        <li key={id} data-fits={fits}>
          <span class="lesson-rank">{rank === null ? '' : `${rank}.`}</span>
          <strong>{bound(name)}</strong>
          <span>{is}</span>
          <span class="lesson-placed">
            <Mark fits={fits} kind="choice" /> {place !== null && say('lesson-you-placed', { place: `${place}` })}
          </span>
        </li>
      ))}
    </ol>
  )
}

interface MarkProperties {
  readonly fits: boolean
  readonly kind: 'choice' | 'fault' | 'target'
}

/** By sign and by word, never by its colour alone. */
function Mark({ fits, kind }: MarkProperties) {
  return (
    <span class="lesson-mark" data-fits={fits}>
      <span aria-hidden="true">{fits ? '✓' : '✗'}</span>
      <span class="unseen">{say(`lesson-fits-${kind}-${fits ? 'yes' : 'no'}`)}</span>
    </span>
  )
}
