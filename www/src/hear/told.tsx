import { useLayoutEffect, useRef } from 'preact/hooks'
import { say } from '../base/words'
import type { Why } from './why'

/** Why there is no sound, brought into sight of those who look at the section. */
export function Told({ why }: { readonly why: Why }) {
  const text = useRef<HTMLParagraphElement>(null)
  useLayoutEffect(() => {
    const panel = text.current?.parentElement?.getBoundingClientRect()
    // Whoever is at the values is not taken away from them.
    if (panel !== undefined && panel.top < innerHeight && panel.bottom > 0) {
      text.current?.scrollIntoView({ block: 'nearest' })
    }
  }, [why])
  return (
    <p ref={text} class="hear-why" role="alert">
      {say(why)}
    </p>
  )
}
