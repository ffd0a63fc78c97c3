// What the likeliest causes would bring on this line, beside what is heard.

import type { CauseOdds, Heard } from '../../../generated/contract'

/** So many causes are laid over what is heard, each with a mark of its own. */
export const MARKS = ['○', '□', '△'] as const

/** Below the first one that a model knows, a cause that is less likely is not shown. */
const LIKELY = 0.1
/** One that is less likely than this is none to look for. */
const LEAST = 0.01
/** Higher harmonics stand too close to be told apart. */
const HIGHEST = 25

export interface Predicted {
  readonly cause: string
  readonly share: number
  /** By harmonic, re the first in dB. */
  readonly lines: ReadonlyMap<number, number>
  /** Where its lines would stand in what is heard: [Hz, dBFS]. */
  readonly points: readonly (readonly [hz: number, level: number])[]
}

export function predictedOf(odds: readonly CauseOdds[], heard: Heard | null): Predicted[] {
  return [...odds]
    .filter(({ lines, share }) => lines.length > 0 && share >= LEAST)
    .sort((a, b) => b.share - a.share)
    .filter(({ share }, place) => place === 0 || share >= LIKELY)
    .slice(0, MARKS.length)
    .map(({ cause, share, lines }) => {
      const levels = new Map(lines.filter(([harmonic]) => harmonic <= HIGHEST))
      return { cause, share, lines: levels, points: placed(levels, heard) }
    })
}

/** Whether a model says what the likeliest cause sounds like. */
export function isFirstPredicted(odds: readonly CauseOdds[]): boolean {
  const most = odds.reduce((most, { share }) => Math.max(most, share), 0)
  return odds.some(({ lines, share }) => share === most && lines.length > 0)
}

/** As loud as what is heard, by the mean of the lines that are in both. */
function placed(levels: ReadonlyMap<number, number>, heard: Heard | null): (readonly [number, number])[] {
  const hz = heard?.mains?.hz
  const above = (heard?.lines ?? []).flatMap(({ harmonic, level }) => {
    const predicted = levels.get(harmonic)
    return predicted === undefined ? [] : [level - predicted]
  })
  if (hz === undefined || above.length === 0) return []
  const by = above.reduce((sum, one) => sum + one, 0) / above.length
  return [...levels].map(([harmonic, level]) => [harmonic * hz, level + by])
}
