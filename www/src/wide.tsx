import type { ComponentChildren } from 'preact'
import { useLayoutEffect, useRef, useState } from 'preact/hooks'

interface Properties {
  readonly name: string
  readonly children: ComponentChildren
}

/**
 * Holds what may be wider than the screen, and scrolls it alone. Where it does,
 * the keyboard must reach it; where it does not, it would only be in the way.
 */
export function Wide({ name, children }: Properties) {
  const box = useRef<HTMLDivElement>(null)
  const [wide, setWide] = useState(false)
  useLayoutEffect(() => {
    const element = box.current
    if (element === null) return
    const observer = new ResizeObserver(() => setWide(element.scrollWidth > element.clientWidth))
    observer.observe(element)
    if (element.firstElementChild !== null) observer.observe(element.firstElementChild)
    return () => observer.disconnect()
  }, [])
  return (
    <div ref={box} class="wide" {...(wide ? { tabIndex: 0, role: 'group', 'aria-label': name } : {})}>
      {children}
    </div>
  )
}
