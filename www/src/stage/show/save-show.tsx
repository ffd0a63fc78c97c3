import { useState } from 'preact/hooks'
import { download } from '../../base/download'
import { isSandboxed } from '../../base/sandbox'
import { Save } from '../../base/save'
import { say } from '../../base/words'
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
  const page = <SavePageWithShow key="page" />
  return <div class="tools show-save">{location.protocol === 'file:' ? [page, file] : [file, page]}</div>
}

function SavePageWithShow() {
  const [state, setState] = useState<'idle' | 'saved' | 'refused' | 'failed'>('idle')
  const save = async () => {
    try {
      download(await pageWithShow(), 'text/html', showFile('html'))
      setState(isSandboxed() ? 'refused' : 'saved')
    } catch {
      setState('failed')
    }
  }
  return (
    <>
      <button type="button" class="chip" onClick={save}>
        {say('stage-save-page')}
      </button>
      <span role="status">
        {state === 'saved' && say('save-page-saved')}
        {state === 'refused' && say('save-refused')}
      </span>
      {state === 'failed' && (
        <p class="problem" role="alert">
          {say('save-page-failed')}
        </p>
      )}
    </>
  )
}
