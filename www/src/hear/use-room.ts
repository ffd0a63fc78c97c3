import type { RefObject } from 'preact'
import { useLayoutEffect } from 'preact/hooks'

/** How tall what lies over the end of the screen is: see hear.css. */
const TALL = '--hear-bar'

/** Gives the page as much room at its end as a bar takes that lies over it. */
export function useRoom(bar: RefObject<HTMLElement | null>, over: boolean): void {
  useLayoutEffect(() => {
    const { current } = bar
    if (!over || current === null) return
    const { style } = document.documentElement
    const watch = new ResizeObserver(() => style.setProperty(TALL, `${current.offsetHeight}px`))
    watch.observe(current)
    return () => {
      watch.disconnect()
      style.removeProperty(TALL)
    }
  }, [bar, over])
}
