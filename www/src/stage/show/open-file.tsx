import { useRef } from 'preact/hooks'
import { say } from '../../base/words'
import { importFile } from './shows'

/** Opens the file of a show. */
export function OpenFile({ hint }: { readonly hint?: string }) {
  const input = useRef<HTMLInputElement>(null)
  return (
    <>
      <button type="button" class="chip" onClick={() => input.current?.click()}>
        {say('stage-open-file')}
        {hint !== undefined && <span class="hint">{hint}</span>}
      </button>
      <input
        ref={input}
        hidden
        type="file"
        accept=".json,application/json,.html,text/html"
        aria-label={say('stage-open-file')}
        onChange={event => {
          const { currentTarget } = event
          const [file] = currentTarget.files ?? []
          // The same one can be chosen again.
          if (file !== undefined) void importFile(file).finally(() => (currentTarget.value = ''))
        }}
      />
    </>
  )
}
