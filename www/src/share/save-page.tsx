import { useState } from 'preact/hooks'
import { download } from '../base/download'
import { isSandboxed } from '../base/sandbox'
import { say } from '../base/words'

interface Properties {
  /** What the button says. */
  readonly label: string
  readonly page: () => Promise<string>
  readonly file: () => string
}

/** Makes one file of the whole page, which needs no network. */
export function SavePage({ label, page, file }: Properties) {
  const [state, setState] = useState<'idle' | 'saved' | 'refused' | 'failed'>('idle')
  const save = async () => {
    try {
      download(await page(), 'text/html', file())
      setState(isSandboxed() ? 'refused' : 'saved')
    } catch {
      setState('failed')
    }
  }
  return (
    <>
      <button type="button" class="chip" onClick={save}>
        {label}
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
