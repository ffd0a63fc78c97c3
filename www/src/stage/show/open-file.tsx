import { ChooseFile } from '../../base/choose-file'
import { say } from '../../base/words'
import { importFile } from './shows'

/** What the file of a show is, or what has one in itself. */
export const OF_SHOWS = '.json,application/json,.html,text/html'

/** Opens the file of a show. */
export function OpenFile({ hint }: { readonly hint?: string }) {
  return (
    <ChooseFile name={say('stage-open-file')} hint={hint} accept={OF_SHOWS} onFile={file => void importFile(file)} />
  )
}
