import type { Frame } from './frame'

/** How far one press of an arrow key moves, in pixels. */
const PRESS = 4
const LONG_PRESS = 32

interface Properties {
  readonly frame: Frame
  /** Where the curve is read; nothing before anybody asked. */
  readonly at: number | null
  readonly name: string
  readonly text: string
  readonly onMove: (at: number | null) => void
}

/** Reads a plot where the finger, the mouse or the arrow keys are. */
export function Cursor({ frame, at, name, text, onMove }: Properties) {
  const { left, right, top, bottom } = frame
  const rows = frame.row > 0
  const [first, last] = rows ? [top, bottom] : [left, right]
  const pixel = at === null ? (first + last) / 2 : frame.x(at)
  const to = (pixel: number) => onMove(frame.along(Math.min(Math.max(pixel, first), last)))
  const point = (event: PointerEvent & { currentTarget: HTMLElement }) => {
    const box = event.currentTarget.getBoundingClientRect()
    to(first + (rows ? event.clientY - box.top : event.clientX - box.left))
  }
  // On to another place, also where there are but some.
  const onward = (by: number) => {
    let next = pixel + by
    while (at !== null && frame.along(next) === at && next > first && next < last) next += by
    return next
  }
  const press = (event: KeyboardEvent) => {
    const step = event.shiftKey ? LONG_PRESS : PRESS
    const places: Record<string, number> = {
      ArrowLeft: onward(-step),
      ArrowDown: onward(rows ? step : -step),
      ArrowRight: onward(step),
      ArrowUp: onward(rows ? -step : step),
      PageDown: onward(rows ? LONG_PRESS : -LONG_PRESS),
      PageUp: onward(rows ? -LONG_PRESS : LONG_PRESS),
      Home: first,
      End: last,
    }
    const place = places[event.key]
    if (event.key === 'Escape') onMove(null)
    else if (place === undefined) return
    else to(place)
    event.preventDefault()
  }
  return (
    <div
      class="cursor"
      role="slider"
      tabIndex={0}
      aria-label={name}
      aria-valuemin={Math.round(first)}
      aria-valuemax={Math.round(last)}
      aria-orientation={rows ? 'vertical' : 'horizontal'}
      aria-valuenow={Math.round(pixel)}
      aria-valuetext={text}
      style={{ left: `${left}px`, top: `${top}px`, width: `${right - left}px`, height: `${bottom - top}px` }}
      onPointerDown={point}
      onPointerMove={event => (event.pointerType === 'mouse' || event.buttons > 0) && point(event)}
      onKeyDown={press}
    />
  )
}
