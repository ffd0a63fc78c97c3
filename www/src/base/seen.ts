// What nobody can see need not follow every move of a slider: it waits until
// the input rests, and leaves the frame to what is on the screen.

import { useCallback, useEffect, useReducer, useRef, useState } from 'preact/hooks'

const PAUSE = 150
/** What comes into the screen by less shows no more than its title. */
const MARGIN = '-72px 0px'

/** Whether an element is on the screen. */
export function useSeen(): [(element: HTMLElement | null) => void, boolean] {
  const [seen, setSeen] = useState(true)
  const observer = useRef<IntersectionObserver | null>(null)
  const ref = useCallback((element: HTMLElement | null) => {
    observer.current?.disconnect()
    if (element === null) return
    observer.current = new IntersectionObserver(entries => setSeen(entries.some(entry => entry.isIntersecting)), {
      rootMargin: MARGIN,
    })
    observer.current.observe(element)
  }, [])
  return [ref, seen]
}

/** The value; where it is not seen, the last one that rested for a moment. */
export function useSettled<T>(value: T, seen: boolean): T {
  const [, draw] = useReducer((count: number, _: undefined) => count + 1, 0)
  const shown = useRef(value)
  if (seen) shown.current = value
  useEffect(() => {
    if (Object.is(shown.current, value)) return
    const timer = setTimeout(() => {
      shown.current = value
      draw(undefined)
    }, PAUSE)
    return () => clearTimeout(timer)
  }, [value, seen])
  return shown.current
}
