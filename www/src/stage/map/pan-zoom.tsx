// Shows a drawing that is larger than its place, to be moved and scaled by hand and keys.

import type { ComponentChildren } from 'preact'
import { useEffect, useId, useRef, useState } from 'preact/hooks'
import { say } from '../../base/words'
import type { Box, Point } from './layout'
import { Sheet, type View } from './sheet'

interface Properties {
  /** The size of what is drawn. */
  readonly width: number
  readonly height: number
  readonly label: string
  /** What is to be seen, if it is not. */
  readonly shown: Box | null
  /** What is to be seen first where there is no room for all. */
  readonly home: Box | null
  readonly onRest: (view: View) => void
  /** Whether something is chosen, from which Tab goes on to the next. */
  readonly chosen: boolean
  /** Called where it was touched and not moved, with how much a pixel of the screen is. */
  readonly onTap: (point: Point, pixel: number) => void
  /** The next, or the one before, of what is drawn; whether there was one. */
  readonly onStep: (by: 1 | -1) => boolean
  readonly onLeave: () => void
  readonly children: ComponentChildren
}

/** An arrow moves by so many pixels, and a key scales by so much. */
const MOVE = 60
const SCALE = 1.4
/** A touch that moved no farther is a tap. */
const STILL = 8

export function PanZoom(properties: Properties) {
  const { width, height, label, shown, chosen, onTap, onStep, onLeave, children } = properties
  const latest = useRef(properties)
  latest.current = properties
  const hint = useId()
  const frame = useRef<HTMLDivElement>(null)
  const layer = useRef<HTMLDivElement>(null)
  const pressed = useRef<Point>([0, 0])
  const [sheet, setSheet] = useState<Sheet | null>(null)
  useEffect(() => {
    if (frame.current === null || layer.current === null) return undefined
    const home = () => latest.current.home
    const made = new Sheet(frame.current, layer.current, home, view => latest.current.onRest(view))
    setSheet(made)
    return () => made.end()
  }, [width, height])
  useEffect(() => {
    if (shown !== null) sheet?.bringIn(shown)
  }, [sheet, shown])
  const press = ({ clientX, clientY, currentTarget }: PointerEvent) => {
    pressed.current = [clientX, clientY]
    // The press is kept from the browser, which would focus it.
    if (currentTarget instanceof HTMLElement) currentTarget.focus({ preventScroll: true })
  }
  const tap = ({ clientX, clientY }: MouseEvent) => {
    const [x, y] = pressed.current
    if (sheet === null || Math.hypot(clientX - x, clientY - y) > STILL) return
    const { point, pixel } = sheet.under([clientX, clientY])
    onTap(point, pixel)
  }
  const key = (event: KeyboardEvent) => {
    if (sheet === null || event.altKey || event.ctrlKey || event.metaKey) return
    // Only from one place to the next: without one, Tab leaves the picture.
    const acted =
      event.key === 'Tab' ? chosen && onStep(event.shiftKey ? -1 : 1) : pressedKey(sheet, event.key, onStep, onLeave)
    if (acted) event.preventDefault()
  }
  return (
    <div class="pan-zoom">
      <div
        ref={frame}
        class="map-frame"
        tabIndex={0}
        role="application"
        aria-label={label}
        aria-describedby={hint}
        onKeyDown={key}
        onPointerDown={press}
        onClick={tap}
      >
        <div ref={layer} class="map-layer">
          {children}
        </div>
      </div>
      <Scales sheet={sheet} />
      <p class="hint" id={hint}>
        {say('stage-map-keys')}
      </p>
    </div>
  )
}

/** What the keys do, for a finger. */
function Scales({ sheet }: { readonly sheet: Sheet | null }) {
  return (
    <div class="tools map-keys">
      <button type="button" class="chip" aria-label={say('stage-map-closer')} onClick={() => sheet?.scale(SCALE)}>
        +
      </button>
      <button type="button" class="chip" aria-label={say('stage-map-farther')} onClick={() => sheet?.scale(1 / SCALE)}>
        −
      </button>
      <button type="button" class="chip" onClick={() => sheet?.fit()}>
        {say('stage-map-fit')}
      </button>
    </div>
  )
}

/** Does what a key is for; whether it is for something. */
function pressedKey(sheet: Sheet, key: string, onStep: Properties['onStep'], onLeave: () => void): boolean {
  switch (key) {
    case 'ArrowLeft':
      sheet.move(MOVE, 0)
      return true
    case 'ArrowRight':
      sheet.move(-MOVE, 0)
      return true
    case 'ArrowUp':
      sheet.move(0, MOVE)
      return true
    case 'ArrowDown':
      sheet.move(0, -MOVE)
      return true
    case '+':
    case '=':
      sheet.scale(SCALE)
      return true
    case '-':
      sheet.scale(1 / SCALE)
      return true
    case '0':
      sheet.fit()
      return true
    case 'Enter':
      return onStep(1)
    case 'Escape':
      onLeave()
      return true
    default:
      return false
  }
}
