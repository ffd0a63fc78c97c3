import type { ComponentChildren } from 'preact'
import { useId, useState } from 'preact/hooks'
import type { Description } from '../generated/contract'
import { say } from './base/words'

interface Properties {
  readonly description: Description
  /** What stands beside the title. */
  readonly children: ComponentChildren
}

/** What a calculator is called and what it answers; the latter folds where there is little room. */
export function Intro({ description: { title, purpose }, children }: Properties) {
  const [open, setOpen] = useState(false)
  const id = useId()
  return (
    <div class="intro">
      <div class="titled">
        <h1 tabIndex={-1}>{title}</h1>
        <button
          type="button"
          class="about"
          aria-expanded={open}
          aria-controls={id}
          aria-label={say('help', { field: title })}
          onClick={() => setOpen(!open)}
        >
          ?
        </button>
        {children}
      </div>
      <p id={id} class="purpose" data-open={open}>
        {purpose}
      </p>
    </div>
  )
}
