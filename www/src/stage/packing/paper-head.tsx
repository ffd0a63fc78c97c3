import type { Show } from '../../../generated/contract'
import { today } from '../../base/download'
import { say } from '../../base/words'

/** On top of what is printed: of which show, and of when. */
export function PaperHead({ show, title }: { readonly show: Show; readonly title: string }) {
  return (
    <header>
      <h1>{show.name || say('stage-paper-no-name')}</h1>
      <p>
        {title}, {today()}
      </p>
    </header>
  )
}
