import { useRef } from 'preact/hooks'

interface Properties {
  readonly name: string
  readonly hint?: string | undefined
  /** Which files the browser offers first. */
  readonly accept: string
  readonly onFile: (file: File) => void
}

/** A button that has a file chosen. */
export function ChooseFile({ name, hint, accept, onFile }: Properties) {
  const input = useRef<HTMLInputElement>(null)
  return (
    <>
      <button type="button" class="chip" onClick={() => input.current?.click()}>
        {name}
        {hint !== undefined && <span class="hint">{hint}</span>}
      </button>
      <input
        ref={input}
        hidden
        type="file"
        accept={accept}
        aria-label={name}
        onChange={event => {
          const { currentTarget } = event
          const [file] = currentTarget.files ?? []
          if (file !== undefined) onFile(file)
          // The same one can be chosen again, once it was changed.
          currentTarget.value = ''
        }}
      />
    </>
  )
}
