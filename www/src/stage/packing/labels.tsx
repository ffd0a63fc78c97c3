import type { Show, Totals } from '../../../generated/contract'
import { say } from '../../base/words'
import { QrPicture } from '../../share/qr-code'
import { labelsOf, type Label } from './label'
import { laid, leadsByLine, type LeadsOfLine, type PrintLength } from './leads'
import { usePrint } from './printed'
import type { WholeLines } from './whole-lines'

interface Properties {
  readonly show: Show
  readonly totals: Totals
  readonly texts: WholeLines
}

/** A label for the lead of each line, several to a page. */
export function Labels({ show, totals, texts }: Properties) {
  const leads = leadsByLine(totals)
  const { length } = usePrint()
  return (
    <ul class="labels">
      {labelsOf(show, texts, id => longOf(leads.get(id), length)).map(label => (
        <One key={label.line.id} label={label} />
      ))}
    </ul>
  )
}

/** How long the run is; where there is none, the first lead. */
function longOf(leads: LeadsOfLine | undefined, length: PrintLength): string {
  const lead = leads?.run ?? leads?.first
  return lead === undefined ? '' : laid(lead, length)
}

function One({ label: { line, length, code } }: { readonly label: Label }) {
  const { id, channel, name, patch } = line
  return (
    <li data-line={id}>
      {code !== null && <QrPicture code={code} name={say('stage-label-code', { line: channel || name })} />}
      <div>
        <strong>{channel}</strong>
        <p>{name}</p>
        <p>{patch}</p>
        <p>{length}</p>
      </div>
    </li>
  )
}
