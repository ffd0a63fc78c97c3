import { Save } from '../../base/save'
import { say } from '../../base/words'
import { SavePage } from '../../share/save-page'
import { fileText, noteSaved, pageWithShow, showFile } from './shows'

/** The ways to take the show along; first the one that lasts where the page is opened. */
export function SaveShow() {
  const file = (
    <Save
      key="file"
      name={say('stage-save-file')}
      content={() => {
        noteSaved()
        return fileText()
      }}
      type="application/json"
      file={() => showFile('json')}
    />
  )
  const page = <SavePage key="page" label={say('stage-save-page')} page={pageWithShow} file={() => showFile('html')} />
  return <div class="tools show-save">{location.protocol === 'file:' ? [page, file] : [file, page]}</div>
}
