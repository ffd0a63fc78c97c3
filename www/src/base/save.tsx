import { useState } from 'preact/hooks'
import { ByHand } from './by-hand'
import { download } from './download'
import { isSandboxed } from './sandbox'
import { say } from './words'

interface Properties {
  readonly name: string
  /** What is saved; called when it is. */
  readonly content: () => string | Promise<Blob>
  readonly type: string
  readonly file: () => string
}

/** Saves a file; where the page around this one may forbid it, shows what would be in it. */
export function Save({ name, content, type, file }: Properties) {
  const [shown, setShown] = useState<string | Blob | null>(null)
  const save = async () => {
    const made = await content()
    download(made, type, file())
    if (isSandboxed()) setShown(made)
  }
  return (
    <>
      <button type="button" class="chip" onClick={save}>
        {name}
      </button>
      {typeof shown === 'string' && <ByHand text={shown} why={say('save-by-hand')} />}
      {shown instanceof Blob && <p role="status">{say('save-refused')}</p>}
    </>
  )
}
