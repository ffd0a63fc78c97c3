// A sheet that lies under a frame: it is moved and scaled by finger, mouse and wheel.

import Panzoom, { type PanzoomObject } from '@panzoom/panzoom'
import type { Box, Point } from './layout'

/** The largest that a sheet is shown. */
const MOST = 3
/** Smaller than any sheet has to be to be seen whole. */
const LEAST = 0.01

export class Sheet {
  readonly #panzoom: PanzoomObject
  readonly #watch: ResizeObserver
  readonly #first: ReturnType<typeof setTimeout>
  /** Whether it is as somebody put it; else it is shown whole, whatever the size of the frame. */
  #moved = false

  constructor(
    readonly frame: HTMLElement,
    readonly layer: HTMLElement,
  ) {
    this.#panzoom = Panzoom(layer, { canvas: true, maxScale: MOST, minScale: LEAST, step: 0.4, cursor: 'grab' })
    layer.addEventListener('panzoomstart', this.#note)
    frame.addEventListener('wheel', this.#wheel, { passive: false })
    this.#watch = new ResizeObserver(() => {
      if (!this.#moved) this.fit()
    })
    this.#watch.observe(frame)
    // Behind the one with which the library puts it to its corner.
    this.#first = setTimeout(() => this.fit())
  }

  end(): void {
    this.#watch.disconnect()
    this.frame.removeEventListener('wheel', this.#wheel)
    this.layer.removeEventListener('panzoomstart', this.#note)
    clearTimeout(this.#first)
    this.#panzoom.destroy()
  }

  readonly #note = () => {
    this.#moved = true
  }

  /** The wheel scrolls the page until the picture is what one works with. */
  readonly #wheel = (event: WheelEvent) => {
    if (!event.ctrlKey && !this.frame.contains(document.activeElement)) return
    this.#moved = true
    this.#panzoom.zoomWithWheel(event)
  }

  /** Scales it about the middle of the frame. */
  scale(by: number): void {
    this.#moved = true
    const { left, top, width, height } = this.frame.getBoundingClientRect()
    const middle = { clientX: left + width / 2, clientY: top + height / 2 }
    this.#panzoom.zoomToPoint(Math.min(MOST, this.#panzoom.getScale() * by), middle)
  }

  /** Moves it by so many pixels of the screen. */
  move(x: number, y: number): void {
    this.#moved = true
    const scale = this.#panzoom.getScale()
    this.#panzoom.pan(x / scale, y / scale, { relative: true })
  }

  /** Shows all of it, in the middle. */
  fit(): void {
    const { frame, layer } = this
    const [width, height] = [layer.offsetWidth, layer.offsetHeight]
    const scale = Math.min(1, frame.clientWidth / width, frame.clientHeight / height)
    this.#panzoom.zoom(scale, { silent: true })
    this.#put([(frame.clientWidth - width * scale) / 2, (frame.clientHeight - height * scale) / 2])
    this.#moved = false
  }

  /** Moves it so far that a part of it is seen, if that is not; one that is too large, smaller. */
  bringIn({ x, y, width, height }: Box): void {
    const { clientWidth, clientHeight } = this.frame
    const fitting = 0.9 * Math.min(clientWidth / width, clientHeight / height)
    const scale = Math.min(this.#panzoom.getScale(), fitting)
    if (scale < this.#panzoom.getScale()) this.#panzoom.zoom(scale, { silent: true })
    const pan = this.#panzoom.getPan()
    const at = (pan: number, size: number) => scale * pan + (size / 2) * (1 - scale)
    const [left, top] = [at(pan.x, this.layer.offsetWidth), at(pan.y, this.layer.offsetHeight)]
    const across = into(left + x * scale, width * scale, clientWidth)
    const down = into(top + y * scale, height * scale, clientHeight)
    if (across === 0 && down === 0) return
    this.#put([left + across, top + down])
    this.#moved = true
  }

  /** What of it is at a point of the screen, and how much of it a pixel is. */
  under([x, y]: Point): { readonly point: Point; readonly pixel: number } {
    const { left, top, width } = this.layer.getBoundingClientRect()
    const pixel = this.layer.offsetWidth / width
    return { point: [(x - left) * pixel, (y - top) * pixel], pixel }
  }

  /** Puts its corner to a point of the frame; it is scaled about its middle. */
  #put([x, y]: Point): void {
    const scale = this.#panzoom.getScale()
    const at = (to: number, size: number) => (to - (size / 2) * (1 - scale)) / scale
    this.#panzoom.pan(at(x, this.layer.offsetWidth), at(y, this.layer.offsetHeight), { silent: true, force: true })
  }
}

/** How far something has to move to be in a room that is large enough. */
function into(from: number, length: number, room: number): number {
  return Math.max(0, -from) || Math.min(0, room - from - length)
}
