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
    const was = before.current
    // Measuring lays the page out, which most changes can do without.
    if (was === null) return
    before.current = null
    scrollBy({ top: (top() ?? was) - was, behavior: 'instant' })
  })
  const keep = () => {
    before.current = top()
  }
  return [element, keep] as const
}
