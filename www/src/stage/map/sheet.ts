// A sheet that lies under a frame: it is moved and scaled by finger, mouse and wheel.

import Panzoom, { type PanzoomObject } from '@panzoom/panzoom'
import type { Box, Point } from './layout'

/** The largest that a sheet is shown. */
const MOST = 3
/** Smaller than any sheet has to be to be seen whole. */
const LEAST = 0.01

/** The smallest at which names can be read, at which it is shown if the frame is too small for all of it. */
const READABLE = 0.5
/** So long after a move it rests, ms; longer while it is held, for whoever holds it moves on. */
const REST = 120
const HELD = 600
/** So much around the frame counts as seen, re its size. */
const MARGIN = 0.25

/** What of a sheet is seen. */
export interface View {
  readonly scale: number
  /** With some room around, so that a small move brings nothing in. */
  readonly box: Box
  /** Without. */
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

export class Sheet {
  readonly #panzoom: PanzoomObject
  readonly #watch: ResizeObserver
  readonly #first: ReturnType<typeof setTimeout>
  #held = false
  #rest: ReturnType<typeof setTimeout> | undefined
  /** Whether it is as somebody put it; else it is shown whole, whatever the size of the frame. */
  #moved = false

  constructor(
    readonly frame: HTMLElement,
    readonly layer: HTMLElement,
    /** What is shown at first where the frame is too small for all. */
    readonly home: () => Box | null,
    /** Called where it comes to rest. */
    readonly onRest: (view: View) => void,
  ) {
    this.#panzoom = Panzoom(layer, { canvas: true, maxScale: MOST, minScale: LEAST, step: 0.4, cursor: 'grab' })
    layer.addEventListener('panzoomstart', this.#note)
    layer.addEventListener('panzoomend', this.#release)
    layer.addEventListener('panzoomchange', this.#moving)
    frame.addEventListener('wheel', this.#wheel, { passive: false })
    this.#watch = new ResizeObserver(() => {
      if (!this.#moved) this.begin()
    })
    this.#watch.observe(frame)
    // Behind the one with which the library puts it to its corner.
    this.#first = setTimeout(() => this.begin())
  }

  end(): void {
    this.#watch.disconnect()
    this.frame.removeEventListener('wheel', this.#wheel)
    this.layer.removeEventListener('panzoomstart', this.#note)
    this.layer.removeEventListener('panzoomend', this.#release)
    this.layer.removeEventListener('panzoomchange', this.#moving)
    clearTimeout(this.#first)
    clearTimeout(this.#rest)
    this.#panzoom.destroy()
  }

  readonly #note = () => {
    this.#moved = true
    this.#held = true
  }

  readonly #release = () => {
    this.#held = false
    this.#moving()
  }

  readonly #moving = () => {
    clearTimeout(this.#rest)
    this.#rest = setTimeout(() => this.onRest(this.#view()), this.#held ? HELD : REST)
  }

  #view(): View {
    const { clientWidth, clientHeight } = this.frame
    const { left, top, scale } = this.#corner()
    const [width, height] = [clientWidth / scale, clientHeight / scale]
    const [x, y] = [-left / scale, -top / scale]
    const around = {
      x: x - MARGIN * width,
      y: y - MARGIN * height,
      width: (1 + 2 * MARGIN) * width,
      height: (1 + 2 * MARGIN) * height,
    }
    return { scale, box: around, left: x, right: x + width, top: y, bottom: y + height }
  }

  /** Where its corner is in the frame, and how large it is shown. */
  #corner(): { readonly left: number; readonly top: number; readonly scale: number } {
    const scale = this.#panzoom.getScale()
    const pan = this.#panzoom.getPan()
    const at = (pan: number, size: number) => scale * pan + (size / 2) * (1 - scale)
    return { left: at(pan.x, this.layer.offsetWidth), top: at(pan.y, this.layer.offsetHeight), scale }
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

  /** Shows all of it, in the middle; where names could not be read then, what matters most. */
  begin(): void {
    this.#center(READABLE)
    this.#moved = false
  }

  /** Shows all of it, whether names can be read or not. */
  fit(): void {
    this.#center(LEAST)
    this.#moved = true
  }

  /** Puts it into the middle of the frame, no smaller than this. */
  #center(least: number): void {
    const { clientWidth, clientHeight } = this.frame
    const { offsetWidth: width, offsetHeight: height } = this.layer
    const whole = Math.min(1, clientWidth / width, clientHeight / height)
    const scale = Math.max(whole, least)
    const home = whole < scale ? this.home() : null
    this.#panzoom.zoom(scale, { silent: true })
    this.#put([
      placed(clientWidth, scale * width, home && [scale * home.x, scale * home.width]),
      placed(clientHeight, scale * height, home && [scale * home.y, scale * home.height]),
    ])
  }

  /** Moves it so far that a part of it is seen, if that is not; one that is too large, smaller. */
  bringIn({ x, y, width, height }: Box): void {
    const { clientWidth, clientHeight } = this.frame
    const fitting = Math.min(clientWidth / width, clientHeight / height)
    const { left, top, scale: now } = this.#corner()
    const scale = Math.min(now, fitting)
    if (scale < now) {
      this.#panzoom.zoom(scale, { silent: true })
      this.#put([(clientWidth - width * scale) / 2 - x * scale, (clientHeight - height * scale) / 2 - y * scale])
    } else {
      const across = into(left + x * scale, width * scale, clientWidth)
      const down = into(top + y * scale, height * scale, clientHeight)
      if (across === 0 && down === 0) return
      this.#put([left + across, top + down])
    }
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
    this.#moving()
  }
}

/** Where something begins in a room: in its middle, or where a part of it is there, as far as there is more. */
function placed(room: number, length: number, part: readonly [from: number, length: number] | null): number {
  if (length <= room || part === null) return Math.max(0, (room - length) / 2)
  const [from, size] = part
  const begin = size <= room ? (room - size) / 2 - from : -from
  return Math.min(0, Math.max(room - length, begin))
}

/** How far something has to move to be in a room that is large enough. */
function into(from: number, length: number, room: number): number {
  return Math.max(0, -from) || Math.min(0, room - from - length)
}
