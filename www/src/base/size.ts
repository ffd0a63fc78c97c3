import { useCallback, useRef, useState } from 'preact/hooks'

/** The width before anything was measured: that of a phone. */
const FIRST = 328
/** The letters of a plot against those of the page. */
const LETTERS = 0.75
/** At least this many of them must fit side by side, or the names would cover the curves. */
const ACROSS = 25

/** Measures an element: its width, and the height of a line of a plot's text, in pixels. */
export function useSize(): [(element: HTMLElement | null) => void, number, number] {
  const [size, setSize] = useState({ width: FIRST, line: 12 })
  const observer = useRef<ResizeObserver | null>(null)
  const ref = useCallback((element: HTMLElement | null) => {
    observer.current?.disconnect()
    if (element === null) return
    const measure = () => {
      const width = Math.floor(element.clientWidth)
      const root = parseFloat(getComputedStyle(document.documentElement).fontSize)
      const line = Math.min(LETTERS * root, width / ACROSS)
      if (width > 0) setSize(last => (last.width === width && last.line === line ? last : { width, line }))
    }
    observer.current = new ResizeObserver(measure)
    observer.current.observe(element)
    measure()
  }, [])
  return [ref, size.width, size.line]
}
