import type { RefObject } from 'preact'
import { useEffect, useRef, useState } from 'preact/hooks'

/** What is dragged, and what begins to drag it: `move` is called with the place that it is over. */
export function useDrag(list: RefObject<HTMLElement | null>, move: (id: string, to: number) => void) {
  const [dragged, setDragged] = useState<string | null>(null)
  const moving = useRef(move)
  moving.current = move
  useEffect(() => {
    if (dragged === null) return
    const follow = ({ clientY }: PointerEvent) => {
      const boxes = [...(list.current?.children ?? [])].map(child => child.getBoundingClientRect())
      const over = boxes.findIndex(({ top, bottom }) => clientY >= top && clientY < bottom)
      if (over >= 0) moving.current(dragged, over)
    }
    const ends = ['pointerup', 'pointercancel'] as const
    const done = () => setDragged(null)
    addEventListener('pointermove', follow)
    for (const end of ends) addEventListener(end, done)
    return () => {
      removeEventListener('pointermove', follow)
      for (const end of ends) removeEventListener(end, done)
    }
  }, [dragged, list])
  return [dragged, setDragged] as const
}
