// Asks the core again and again what comes in, and draws nothing itself.

import type { Heard, Through } from '../../../generated/contract'
import { askStage } from '../../engine/stage'
import type { Capture } from './capture'

/** A picture at most so often, ms. */
const PICTURES = 100
/** What is heard is asked so often, ms, of the newest so many seconds, once there is this much. */
const HEARINGS = 1000
const SECONDS = 8
const LEAST = 1

interface Told {
  readonly picture: (points: Heard['spectrum']) => void
  readonly heard: (heard: Heard) => void
  readonly failed: (why: string) => void
}

/** Follows what comes in until the function that it gives is called. */
export function follow(capture: Capture, through: () => Through, told: Told): () => void {
  let over = false
  const again = (ask: () => Promise<void>, next: (took: number) => number) => {
    const begun = performance.now()
    const wait = () => over || setTimeout(() => over || again(ask, next), next(performance.now() - begun))
    ask().then(wait, (error: unknown) => over || told.failed(String(error)))
  }
  const picture = async () => {
    const points = await askStage('listen_spectrum', capture.picture(), capture.rate)
    if (!over) told.picture(points)
  }
  const hearing = async () => {
    const samples = await capture.lastSlowly(SECONDS)
    if (over || samples === null || samples.length < LEAST * capture.rate) return
    const heard = await askStage('listen_hear', samples, capture.rate, through())
    if (!over) told.heard(heard)
  }
  again(picture, took => Math.max(0, PICTURES - took))
  // Half of the time of the worker stays for the finder, on a slow device too.
  again(hearing, took => Math.max(HEARINGS - took, took))
  return () => {
    over = true
  }
}
