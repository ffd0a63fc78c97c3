import type { Marked, MarkedRow } from '../../generated/contract'
import { say } from '../base/words'
import { bound } from './bound'
import { ReadingsHead, ReadingsTable } from './readings-table'
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
      <ReadingsHead heads={heads} />
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

/** How two rigs differ: band by band in a sentence, and reading by reading with what each has. */
function Differences({ rows }: { readonly rows: readonly MarkedRow[] }) {
  const bands = rows.filter(({ other }) => other === '')
  const readings = rows.filter(({ other }) => other !== '')
  const cells = (rows: readonly MarkedRow[]) =>
    rows.map(({ id, name, is, other }) => ({ id, name, cells: other === '' ? [is] : [is, other] }))
  return (
    <div class="lesson-differences">
      {bands.length > 0 && <ReadingsTable heads={[say('lesson-ear-differences')]} rows={cells(bands)} />}
      {readings.length > 0 && (
        <ReadingsTable heads={[say('lesson-ear-letter-a'), say('lesson-ear-letter-b')]} rows={cells(readings)} />
      )}
    </div>
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
