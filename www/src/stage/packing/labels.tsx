import type { Show } from '../../../generated/contract'
import { say } from '../../base/words'
import { QrPicture } from '../../share/qr-code'
import { labelsOf, type Label } from './label'
import type { WholeLines } from './whole-lines'

/** A label for the lead of each line, several to a page. */
export function Labels({ show, texts }: { readonly show: Show; readonly texts: WholeLines }) {
  return (
    <ul class="labels">
      {labelsOf(show, texts).map(label => (
        <One key={label.line.id} label={label} />
      ))}
    </ul>
  )
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
