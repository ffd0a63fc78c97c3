import { useLayoutEffect, useRef } from 'preact/hooks'

/**
 * Keeps an element where it is on the screen while what is above it grows or
 * shrinks: what is under the finger stays under it. The first is the element's
 * ref, the second is called before the change.
 */
export function useStill() {
  const element = useRef<HTMLDivElement>(null)
  const before = useRef<number | null>(null)
  const top = () => element.current?.getBoundingClientRect().top ?? null
  useLayoutEffect(() => {
    const [was, is] = [before.current, top()]
    before.current = null
    if (was !== null && is !== null && was !== is) scrollBy({ top: is - was, behavior: 'instant' })
  })
  const keep = () => {
    before.current = top()
  }
  return [element, keep] as const
}
