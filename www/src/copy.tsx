import { useState } from 'preact/hooks'
import { say } from './words'

interface Properties {
  readonly text: () => string
  readonly name: string
}

/** A number that is copied by a click; where the browser refuses, it is marked to be copied by hand. */
export function CopyValue({ text }: { readonly text: string }) {
  const [copied, setCopied] = useState('')
  const copy = async (value: Element) => {
    try {
      await navigator.clipboard.writeText(text.replaceAll('\u00a0', ' '))
      setCopied(text)
    } catch {
      getSelection()?.selectAllChildren(value)
    }
  }
  return (
    <>
      <button
        type="button"
        class="copy-value"
        title={say('copy-value')}
        onClick={event => copy(event.currentTarget.firstElementChild ?? event.currentTarget)}
      >
        <bdi>{text}</bdi>
        <span class="unseen"> {say('copy-value')}</span>
      </button>
      <span role="status" class="copied">
        {copied === text && say('copied')}
      </span>
    </>
  )
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
