// Asks the core again and again what comes in, and draws nothing itself.

import type { Heard, Through } from '../../../generated/contract'
import { askStage } from '../../engine/stage'
import type { Capture } from './capture'
import type { Curve } from './draw'

/** A picture at most so often, ms. */
const PICTURES = 100
/** What is heard is asked at most so often, ms, of the newest so many seconds, once there is this much. */
const HEARINGS = 1000
const SECONDS = 8
const LEAST = 1
/** It is asked anew once this share of it is new: of eight seconds, one more changes little. */
const NEW = 0.25

interface Told {
  readonly picture: (curve: Curve) => void
  /** Until it is done no picture comes: both in one frame would be too much for it. */
  readonly heard: (heard: Heard) => Promise<void>
  readonly failed: (why: string) => void
}

/** Follows what comes in until the function that it gives is called. */
export function follow(capture: Capture, through: () => Through, told: Told): () => void {
  let [over, isHearing, pause] = [false, false, HEARINGS]
  const again = (ask: () => Promise<void>, next: (took: number) => number) => {
    const begun = performance.now()
    const wait = () => over || setTimeout(() => over || again(ask, next), next(performance.now() - begun))
    ask().then(wait, (error: unknown) => over || told.failed(String(error)))
  }
  const picture = async () => {
    // It would wait for the worker, and come together with what is heard.
    if (isHearing) return
    const curve = await askStage('listen_spectrum', capture.picture(), capture.rate)
    if (!over) told.picture(curve)
  }
  const hearing = async () => {
    const samples = await capture.lastSlowly(SECONDS)
    if (over || samples === null || samples.length < LEAST * capture.rate) return
    pause = Math.max(HEARINGS, (NEW * 1000 * samples.length) / capture.rate)
    isHearing = true
    try {
      const heard = await askStage('listen_hear', samples, capture.rate, through())
      if (!over) await told.heard(heard)
    } finally {
      isHearing = false
    }
  }
  again(picture, took => Math.max(0, PICTURES - took))
  // Half of the time of the worker stays for the finder, on a slow device too.
  again(hearing, took => Math.max(pause - took, took))
  return () => {
    over = true
  }
}
