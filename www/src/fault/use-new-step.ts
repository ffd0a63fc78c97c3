import type { RefObject } from 'preact'
import { useLayoutEffect, useRef } from 'preact/hooks'

/** While the answer is awaited there is nothing to go to. */
const ASKING = 'asking'

/** The heading of a new step has the focus, which reads it out, and stands at the top of the screen. */
export function useNewStep(article: RefObject<HTMLElement | null>, name: string): void {
  const last = useRef(name)
  useLayoutEffect(() => {
    // The heading that had the focus while this was awaited is gone.
    if (document.activeElement === document.body) article.current?.querySelector('h1')?.focus()
  }, [article])
  useLayoutEffect(() => {
    if (last.current === name || name === ASKING) return
    const isFirst = last.current === ASKING
    last.current = name
    // Whoever opens a link begins at the top of the page.
    if (isFirst) return
    article.current?.querySelector<HTMLElement>('[data-focus]')?.focus({ preventScroll: true })
    article.current?.scrollIntoView({ block: 'start' })
  }, [article, name])
}
