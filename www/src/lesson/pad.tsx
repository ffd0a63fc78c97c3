import { useRef } from 'preact/hooks'
import type { Frame } from '../plot/frame'
import type { Axes } from './drawn-frame'
import { stroke, type Points } from './drawn-curve'
import { lessonState, respond } from './lesson-state'

interface Properties {
  readonly frame: Frame
  readonly axes: Axes
  /** The step that it answers. */
  readonly at: number
  /** What is under the finger; nothing once it is gone. */
  readonly onOver: (place: Place | null) => void
  /** A stroke is done; this was there before it. */
  readonly onStroke: (before: Points) => void
}

/** A place of a plot: along, and up. */
export type Place = [number, number]

/** Where on the screen a finger is, and over what. */
interface Pointing {
  readonly currentTarget: HTMLElement
  readonly clientX: number
  readonly clientY: number
}

interface Stroke {
  readonly from: Pointing
  readonly before: Points
  /** The last place that was drawn; nothing as long as it may become a scroll. */
  last: Place | null
}

/** A finger that went less far has not moved, in pixels. */
const STILL = 6

/** Where a finger or a mouse draws: along it draws, up and down the page is scrolled. */
export function Pad(properties: Properties) {
  const { left, right, top, bottom } = properties.frame
  return (
    <div
      class="lesson-pad"
      style={{ left: `${left}px`, top: `${top}px`, width: `${right - left}px`, height: `${bottom - top}px` }}
      {...useStrokes(properties)}
    />
  )
}

type Over = PointerEvent & { readonly currentTarget: HTMLElement }

/** What a pad hears of fingers. */
function useStrokes({ frame, axes, at, onOver, onStroke }: Properties) {
  const now = useRef<Stroke | null>(null)
  const draw = (one: Stroke, next: Place) => {
    const points = lessonState()?.responses[at]?.curve ?? []
    respond({ curve: stroke(points, axes.x, one.last ?? next, next) }, at)
    one.last = next
    onOver(next)
  }
  const end = () => {
    now.current = null
    onOver(null)
  }
  return {
    onPointerDown: (event: Over) => {
      if (now.current !== null || event.button > 0) return
      const { clientX, clientY, pointerId, currentTarget, pointerType } = event
      const before = lessonState()?.responses[at]?.curve ?? []
      now.current = { from: { currentTarget, clientX, clientY }, before, last: null }
      currentTarget.setPointerCapture(pointerId)
      if (pointerType === 'mouse') draw(now.current, placeOf(event, frame, axes))
    },
    onPointerMove: (event: Over) => {
      const one = now.current
      if (one === null) {
        onOver(placeOf(event, frame, axes))
        return
      }
      const [across, down] = moved(one, event)
      if (one.last === null && (across < STILL || across <= down)) return
      one.last ??= placeOf(one.from, frame, axes)
      draw(one, placeOf(event, frame, axes))
    },
    onPointerUp: (event: Over) => {
      const one = now.current
      if (one === null) return
      if (one.last === null && Math.max(...moved(one, event)) < STILL) draw(one, placeOf(event, frame, axes))
      if (one.last !== null) onStroke(one.before)
      end()
    },
    onPointerLeave: () => {
      if (now.current === null) onOver(null)
    },
    // It was meant for something else.
    onPointerCancel: () => {
      if (now.current !== null && now.current.last !== null) respond({ curve: now.current.before }, at)
      end()
    },
  }
}

function placeOf({ currentTarget, clientX, clientY }: Pointing, { left, right, along }: Frame, { y }: Axes): Place {
  const box = currentTarget.getBoundingClientRect()
  const within = (share: number) => Math.min(Math.max(share, 0), 1)
  const across = along(left + within((clientX - box.left) / box.width) * (right - left))
  const up = within((box.bottom - clientY) / box.height)
  const height = y.log ? y.from * (y.to / y.from) ** up : y.from + up * (y.to - y.from)
  // No finer than a hand means it.
  return [across, Number(height.toPrecision(3))]
}

/** How far a finger went since a stroke began. */
function moved({ from }: Stroke, { clientX, clientY }: Pointing): [number, number] {
  return [Math.abs(clientX - from.clientX), Math.abs(clientY - from.clientY)]
}
