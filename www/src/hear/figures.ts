// What the two rigs add to the signal and how loud they are, in words.

import type { Settings } from '../../generated/contract'
import { say } from '../base/words'
import type { HearingSide } from '../engine/hearing'
import { decibels } from './decibels'
import type { Heard } from './player'
import type { Rig } from './rigs'
import { humOf } from './sides'

export type Added = 'hum' | 'noise' | 'clipping'

/** Less than this apart is equally loud, dB. */
const ALIKE = 0.05

/** What of it there is to say of a rig: so far below the signal, or so much that is left. */
function addedBy(what: Added, { sound }: HearingSide): number | null {
  if (sound === null) return null
  if (what === 'clipping') return sound.headroom
  const level = what === 'hum' ? humOf(sound) : sound.noise
  return level === null ? null : -level
}

/** Of each rig what it adds, where that is known. */
export function addedTexts(what: Added, rigs: readonly Rig[], settings: Settings): string[] {
  return rigs.flatMap(({ kind, side }) => {
    const below = addedBy(what, side)
    if (below === null || kind === 'flat') return []
    const way = below < 0 ? 'over' : 'below'
    return [say(`hear-${what}-${kind}-${way}`, { level: decibels(Math.abs(below), settings) })]
  })
}

/** Which is the softer one: by so much, or brought up by so much. */
export function loudnessText({ sides, of }: Heard, settings: Settings): string {
  const [a, b] = of.rigs
  const { matched } = of.ways
  const apart = matched ? sides.b.gain - sides.a.gain : sides.a.loudness - sides.b.loudness
  if (Math.abs(apart) < ALIKE) return say('hear-alike')
  const { kind } = apart > 0 ? b : a
  return say(`hear-${matched ? 'raised' : 'softer'}-${kind}`, { level: decibels(Math.abs(apart), settings) })
}
