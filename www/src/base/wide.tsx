import type { ComponentChildren } from 'preact'

interface Properties {
  readonly name: string
  readonly children: ComponentChildren
}

/**
 * Holds what may be wider than the screen, and scrolls it alone. The keyboard
 * reaches it always: whether it scrolls now cannot be told for formulas, whose
 * box keeps its size while they outgrow it.
 */
export function Wide({ name, children }: Properties) {
  return (
    <div class="wide" tabIndex={0} role="group" aria-label={name}>
      {children}
    </div>
  )
}
