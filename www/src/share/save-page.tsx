import { useState } from 'preact/hooks'
import { download, fileName } from '../base/download'
import { isSandboxed } from '../base/sandbox'
import { currentHash } from '../screen/shown'
import { savedPage } from '../screen/saved-page'
import { getState } from '../screen/store'
import { say } from '../base/words'

/** Makes one file of the whole page, which opens on this screen and needs no network. */
export function SavePage({ name }: { readonly name: string }) {
  const [state, setState] = useState<'idle' | 'saved' | 'refused' | 'failed'>('idle')
  const save = async () => {
    const { settings, theme, working } = getState()
    try {
      const text = await savedPage({ hash: currentHash(), settings, theme, working })
      download(text, 'text/html', fileName([name], 'html'))
      setState(isSandboxed() ? 'refused' : 'saved')
    } catch {
      setState('failed')
    }
  }
  return (
    <>
      <button type="button" class="chip" onClick={save}>
        {say('save-page')}
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
