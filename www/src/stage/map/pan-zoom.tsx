// Moves and scales what is drawn, by finger, mouse, wheel and keys.

import Panzoom, { type PanzoomObject } from '@panzoom/panzoom'
import type { ComponentChildren } from 'preact'
import { useEffect, useId, useRef } from 'preact/hooks'
import { say } from '../../base/words'
import type { Box, Point } from './layout'

interface Properties {
  /** The size of what is drawn. */
  readonly width: number
  readonly height: number
  readonly label: string
  /** What is to be seen, if it is not. */
  readonly shown: Box | null
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
/** The largest, and what is left of all of it at the smallest. */
const MOST = 3
/** A touch that moved no farther is a tap. */
const STILL = 8

export function PanZoom(properties: Properties) {
  const { width, height, label, children } = properties
  const hint = useId()
  const view = usePanZoom(properties)
  return (
    <div class="pan-zoom">
      <div
        ref={view.frame}
        class="map-frame"
        tabIndex={0}
        role="application"
        aria-label={label}
        aria-describedby={hint}
        onKeyDown={view.key}
        onPointerDown={view.press}
        onClick={view.tap}
      >
        <div ref={view.layer} class="map-layer" data-size={`${Math.round(width)} ${Math.round(height)}`}>
          {children}
        </div>
      </div>
      <div class="tools map-keys">
        <button type="button" class="chip" aria-label={say('stage-map-closer')} onClick={() => view.scale(SCALE)}>
          +
        </button>
        <button type="button" class="chip" aria-label={say('stage-map-farther')} onClick={() => view.scale(1 / SCALE)}>
          −
        </button>
        <button type="button" class="chip" onClick={view.fit}>
          {say('stage-map-fit')}
        </button>
      </div>
      <p class="hint" id={hint}>
        {say('stage-map-keys')}
      </p>
    </div>
  )
}

function usePanZoom({ width, height, shown, onTap, onStep, onLeave }: Properties) {
  const frame = useRef<HTMLDivElement>(null)
  const layer = useRef<HTMLDivElement>(null)
  const panzoom = useRef<PanzoomObject | null>(null)
  const pressed = useRef<Point>([0, 0])
  const moved = useRef(false)
  useEffect(() => {
    if (layer.current === null || frame.current === null) return undefined
    const [around, inner] = [frame.current, layer.current]
    const one = Panzoom(inner, { canvas: true, maxScale: MOST, minScale: 0.01, step: 0.4, cursor: 'grab' })
    panzoom.current = one
    moved.current = false
    const note = () => (moved.current = true)
    const wheel = (event: WheelEvent) => {
      // The wheel scrolls the page until the picture is what one works with.
      if (!event.ctrlKey && !around.contains(document.activeElement)) return
      one.zoomWithWheel(event)
    }
    for (const event of ['panzoompan', 'panzoomzoom']) inner.addEventListener(event, note)
    around.addEventListener('wheel', wheel, { passive: false })
    const watch = new ResizeObserver(() => !moved.current && fitted(one, inner, around))
    watch.observe(around)
    return () => {
      watch.disconnect()
      around.removeEventListener('wheel', wheel)
      for (const event of ['panzoompan', 'panzoomzoom']) inner.removeEventListener(event, note)
      one.destroy()
    }
  }, [width, height])
  useEffect(() => {
    if (shown !== null) bringIn(panzoom.current, layer.current, frame.current, shown)
  }, [shown])
  const scale = (by: number) => {
    const { current: one } = panzoom
    if (one !== null) one.zoom(Math.min(MOST, one.getScale() * by))
  }
  const fit = () => {
    fitted(panzoom.current, layer.current, frame.current)
    moved.current = false
  }
  const pan = (x: number, y: number) => panzoom.current?.pan(x, y, { relative: true })
  const move = (x: number, y: number) =>
    pan(x / (panzoom.current?.getScale() ?? 1), y / (panzoom.current?.getScale() ?? 1))
  const keys: Readonly<Record<string, () => void>> = {
    ArrowLeft: () => move(MOVE, 0),
    ArrowRight: () => move(-MOVE, 0),
    ArrowUp: () => move(0, MOVE),
    ArrowDown: () => move(0, -MOVE),
    '+': () => scale(SCALE),
    '=': () => scale(SCALE),
    '-': () => scale(1 / SCALE),
    '0': fit,
    Enter: () => void onStep(1),
    Escape: onLeave,
  }
  const key = (event: KeyboardEvent) => {
    if (event.altKey || event.ctrlKey || event.metaKey) return
    if (event.key === 'Tab') {
      // Only from one place to the next: without one, it leaves the picture.
      if (shown !== null && onStep(event.shiftKey ? -1 : 1)) event.preventDefault()
      return
    }
    const act = keys[event.key]
    if (act === undefined) return
    event.preventDefault()
    act()
  }
  const press = (event: PointerEvent) => {
    pressed.current = [event.clientX, event.clientY]
    // The press is kept from the browser, which would focus it.
    frame.current?.focus({ preventScroll: true })
  }
  const tap = (event: MouseEvent) => {
    const [x, y] = pressed.current
    if (layer.current === null || Math.hypot(event.clientX - x, event.clientY - y) > STILL) return
    const { left, top, width: across } = layer.current.getBoundingClientRect()
    const pixel = width / across
    onTap([(event.clientX - left) * pixel, (event.clientY - top) * pixel], pixel)
  }
  return { frame, layer, key, press, tap, scale, fit }
}

/** Shows all of it, in the middle. */
function fitted(panzoom: PanzoomObject | null, layer: HTMLElement | null, frame: HTMLElement | null): void {
  if (panzoom === null || layer === null || frame === null) return
  const [width, height] = [layer.offsetWidth, layer.offsetHeight]
  const scale = Math.min(1, frame.clientWidth / width, frame.clientHeight / height)
  panzoom.zoom(scale, { silent: true })
  panTo(panzoom, layer, [(frame.clientWidth - width * scale) / 2, (frame.clientHeight - height * scale) / 2])
}

/** Puts the corner of the layer, which is scaled about its middle, to a point of the frame. */
function panTo(panzoom: PanzoomObject, layer: HTMLElement, [x, y]: Point): void {
  const scale = panzoom.getScale()
  const at = (to: number, size: number) => (to - (size / 2) * (1 - scale)) / scale
  panzoom.pan(at(x, layer.offsetWidth), at(y, layer.offsetHeight), { silent: true, force: true })
}

/** Moves so far that a box is seen, if it is not. */
function bringIn(
  panzoom: PanzoomObject | null,
  layer: HTMLElement | null,
  frame: HTMLElement | null,
  { x, y, width, height }: Box,
): void {
  if (panzoom === null || layer === null || frame === null) return
  const scale = panzoom.getScale()
  const [around, inner] = [frame.getBoundingClientRect(), layer.getBoundingClientRect()]
  const [left, top] = [inner.left - around.left, inner.top - around.top]
  const by = (from: number, length: number, room: number) => {
    const missing = Math.max(0, -from) || Math.min(0, room - from - length)
    return length > room ? -from + (room - length) / 2 : missing
  }
  const across = by(left + x * scale, width * scale, frame.clientWidth)
  const down = by(top + y * scale, height * scale, frame.clientHeight)
  if (across !== 0 || down !== 0) panTo(panzoom, layer, [left + across, top + down])
}
