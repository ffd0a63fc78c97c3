// A finger on a slider: sideways it slides, up and down it scrolls the page. Left
// to themselves browsers set a slider where it is touched, before either is known.

import type { TargetedPointerEvent, TargetedTouchEvent } from 'preact'
import { useRef } from 'preact/hooks'

/** How far a finger moves, in pixels, before its direction counts. */
const SLOP = 6
/** How many times further sideways than up or down it has to move to slide. */
const SIDEWAYS = 1.5
/** Half the thumb of a slider, in pixels: its middle gets no nearer to an end. */
const INSET = 13

interface Properties {
  /** Called as a finger comes down; what it gives is for `takeBack`. */
  readonly begin: () => string
  /** Called with the place of the finger, from 0 at the start to 1 at the end. */
  readonly put: (part: number) => void
  /** Called where the browser takes a slide for something else after all. */
  readonly takeBack: (begun: string) => void
}

interface Swipe {
  readonly x: number
  readonly y: number
  readonly begun: string
  /** Nothing until it is known. */
  direction: 'sideways' | 'upright' | null
  /** Whether it has moved at all. */
  moved: boolean
}

type Pointed = TargetedPointerEvent<HTMLInputElement>

export function useSwipe({ begin, put, takeBack }: Properties) {
  const swipe = useRef<Swipe | null>(null)
  const handlers = {
    onPointerDown: ({ pointerType, isPrimary, clientX: x, clientY: y }: Pointed) => {
      if (pointerType !== 'touch' || !isPrimary) return
      swipe.current = { x, y, begun: begin(), direction: null, moved: false }
    },
    onPointerMove: (event: Pointed) => {
      const now = swipe.current
      if (now === null || !event.isPrimary) return
      const [sideways, upright] = [Math.abs(event.clientX - now.x), Math.abs(event.clientY - now.y)]
      now.moved ||= Math.max(sideways, upright) >= SLOP
      now.direction ??= directionOf(sideways, upright)
      if (now.direction === 'sideways') put(partAt(event))
    },
    onPointerUp: (event: Pointed) => {
      const now = swipe.current
      if (now === null || !event.isPrimary) return
      // A plain tap.
      if (!now.moved) put(partAt(event))
      if (!now.moved || now.direction === 'sideways') event.currentTarget.focus({ preventScroll: true })
      swipe.current = null
    },
    onPointerCancel: () => {
      if (swipe.current?.direction === 'sideways') takeBack(swipe.current.begun)
      swipe.current = null
    },
    onTouchEnd: (event: TargetedTouchEvent<HTMLInputElement>) => {
      // The tap is done: what browsers make of it for a mouse would do it again.
      if (event.cancelable) event.preventDefault()
    },
  }
  return { handlers, isTouched: () => swipe.current !== null }
}

function directionOf(sideways: number, upright: number): Swipe['direction'] {
  if (sideways >= SLOP && sideways > SIDEWAYS * upright) return 'sideways'
  return upright >= SLOP && upright >= sideways ? 'upright' : null
}

/** How far along a slider a pointer is. */
function partAt({ currentTarget, clientX }: Pointed): number {
  const { left, width } = currentTarget.getBoundingClientRect()
  const part = Math.min(Math.max((clientX - left - INSET) / (width - 2 * INSET), 0), 1)
  return getComputedStyle(currentTarget).direction === 'rtl' ? 1 - part : part
}
