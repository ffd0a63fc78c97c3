import { useRef } from 'preact/hooks'

interface Properties {
  readonly name: string
  readonly accept: string
  readonly onFiles: (files: readonly File[]) => void
}

/** A button that has many files chosen at once. */
export function ChooseFiles({ name, accept, onFiles }: Properties) {
  const input = useRef<HTMLInputElement>(null)
  return (
    <>
      <button type="button" class="chip" onClick={() => input.current?.click()}>
        {name}
      </button>
      <input
        ref={input}
        hidden
        multiple
        type="file"
        accept={accept}
        aria-label={name}
        onChange={event => {
          const { currentTarget } = event
          const files = [...(currentTarget.files ?? [])]
          if (files.length > 0) onFiles(files)
          // The same ones can be chosen again, once they were changed.
          currentTarget.value = ''
        }}
      />
    </>
  )
}
