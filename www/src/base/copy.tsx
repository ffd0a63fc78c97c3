import { useState } from 'preact/hooks'
import { ByHand } from './by-hand'
import { useTold } from './copy-value'
import { say } from './words'

interface Properties {
  readonly text: () => string
  readonly name: string
}

/** Copies a text; where the browser refuses, shows it to be copied by hand. */
export function Copy({ text, name }: Properties) {
  const [told, tell] = useTold()
  const [refused, setRefused] = useState(false)
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(text())
      setRefused(false)
      tell(say('copied'))
    } catch {
      setRefused(true)
    }
  }
  return (
    <>
      <button type="button" class="chip" onClick={copy}>
        {name}
      </button>
      <span role="status">{told}</span>
      {refused && <ByHand text={text()} />}
    </>
  )
}
