import { useState } from 'preact/hooks'
import { download } from '../base/download'
import { isSandboxed } from '../base/sandbox'
import { language, LANGUAGES } from '../base/language'
import { say, toldOfLanguages } from '../base/words'
import { isOneFile } from '../screen/saved-page'

interface Properties {
  /** What the button says. */
  readonly label: string
  /** The page, with a second language on request. */
  readonly page: (second: string) => Promise<string>
  readonly file: () => string
}

/** Makes one file of the whole page, which needs no network. */
export function SavePage({ label, page, file }: Properties) {
  const [state, setState] = useState<'idle' | 'saved' | 'refused' | 'failed'>('idle')
  const [second, setSecond] = useState('')
  // One file has what it has, and takes it along.
  const others = isOneFile() ? [] : toldOfLanguages().filter(([code]) => code !== language && LANGUAGES.includes(code))
  const save = async () => {
    try {
      download(await page(second), 'text/html', file())
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
      {others.map(([code, name]) => (
        <button
          key={code}
          type="button"
          class="chip"
          aria-pressed={code === second}
          onClick={() => setSecond(code === second ? '' : code)}
        >
          {say('save-second', { language: name })}
        </button>
      ))}
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
