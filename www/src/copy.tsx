import { useState } from 'preact/hooks'
import { say } from './words'

interface Properties {
  readonly text: () => string
  readonly name: string
}

/** Copies a text; where the browser refuses, shows it to be copied by hand. */
export function Copy({ text, name }: Properties) {
  const [state, setState] = useState<'idle' | 'done' | 'refused'>('idle')
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text())
      setState('done')
    } catch {
      setState('refused')
    }
  }
  return (
    <>
      <button type="button" class="chip" onClick={copy}>
        {name}
      </button>
      <span role="status">{state === 'done' && say('copied')}</span>
      {state === 'refused' && (
        <label class="by-hand">
          <span>{say('copy-by-hand')}</span>
          <textarea readOnly rows={3} value={text()} onFocus={event => event.currentTarget.select()} />
        </label>
      )}
    </>
  )
}
