// The two rigs of a step, to be listened to. Which of them X is, the core is asked once X is
// pressed, and nothing on the page keeps it.

import type { EarSide, LessonStep, Settings } from '../../generated/contract'
import { askStage } from '../engine/stage'
import { getState } from '../screen/store'
import { SoleSound } from '../engine/sole-sound'
import { wantHear, type HearEngine, type Hearing, type HearingSide } from '../engine/hearing'
import { painted } from '../hear/painted'
import { ALONE, sideOf } from '../hear/sides'
import { reportWith } from './bench'
import type { LessonState } from './lesson-state'
import type { Asked } from './step'

export type Which = EarSide | 'x'

/** Why it is silent, where nobody stopped it. */
type Stopped = 'hidden' | 'elsewhere' | 'held' | 'lost'

export type Sounding =
  | { readonly kind: 'silent' | 'opening' }
  | { readonly kind: 'playing'; readonly which: Which; readonly trial: number }
  /** It cannot be had, or it ended. */
  | { readonly kind: 'none' | Stopped }

export class EarPlayer {
  #hearing: Hearing | null = null
  /** Whether it has the two rigs. */
  #isGiven = false
  /** Whether a press is on its way to be heard. */
  #opening = false
  #decibels = 0
  /** The newest press counts, whatever came back late. */
  #press = 0
  readonly #tell: (sounding: Sounding) => void
  readonly #sole = new SoleSound(() => this.stop('elsewhere'))

  constructor(tell: (sounding: Sounding) => void) {
    this.#tell = tell
  }

  async play(which: Which, asked: Asked, trial: number): Promise<void> {
    const mine = ++this.#press
    this.#opening = true
    if (this.#hearing === null) this.#tell({ kind: 'opening' })
    try {
      const engine = await wantHear()
      // Whoever stopped it meanwhile wants no way to the loudspeaker either.
      if (mine !== this.#press) return
      // Nothing waited where the engine was there: some browsers let sound start in the press alone.
      const hearing = (this.#hearing ??= this.#opened(engine))
      if (!this.#isGiven) {
        await painted()
        if (mine !== this.#press) return
        this.#give(hearing, asked)
      }
      const { lesson, seed } = asked.state
      const side = which === 'x' ? await askStage('lesson_x', lesson, seed, asked.at, trial) : which
      if (mine !== this.#press) return
      this.#opening = false
      if (side === null) {
        this.stop()
        this.#tell({ kind: 'silent' })
        return
      }
      if (hearing.playing) hearing.switchTo(side)
      else {
        this.#sole.begin()
        hearing.play(side)
      }
      this.#tell({ kind: 'playing', which, trial })
    } catch {
      if (mine !== this.#press) return
      this.free()
      this.#tell({ kind: 'none' })
    }
  }

  #opened({ Hearing }: HearEngine): Hearing {
    const hearing = new Hearing()
    hearing.onStopped(why => {
      if (this.#hearing !== hearing) return
      this.#press++
      this.#sole.end()
      this.#tell({ kind: why === 'hear-held' ? 'held' : 'lost' })
      // It is still telling; the next press opens what output there is then.
      setTimeout(() => this.#hearing === hearing && this.free())
    })
    return hearing
  }

  #give(hearing: Hearing, { state, at, step }: Asked): void {
    hearing.source(step.source)
    const [a, b] = sidesOf(state, at, step, getState().settings)
    hearing.sides(a, b, { matched: !step.as_it_is, hum: true, noise: true, clipping: true })
    hearing.volume(this.#decibels)
    this.#isGiven = true
  }

  /** Whether it is heard, or will be. */
  get isOn(): boolean {
    return this.#opening || this.#hearing?.playing === true
  }

  /** What could not be heard stays told. */
  stop(kind: 'silent' | Stopped = 'silent'): void {
    this.#press++
    this.#sole.end()
    if (!this.isOn) return
    // What plays fades out, whatever was to follow it.
    if (this.#hearing?.playing !== true) this.free()
    this.#opening = false
    this.#hearing?.stop()
    this.#tell({ kind })
  }

  hide(): void {
    this.stop('hidden')
  }

  volume(db: number): void {
    this.#decibels = db
    this.#hearing?.volume(db)
  }

  free(): void {
    this.#press++
    this.#opening = false
    this.#sole.end()
    this.#hearing?.free()
    this.#hearing = null
    this.#isGiven = false
  }
}

/** A and B as they are heard. */
function sidesOf(state: LessonState, at: number, step: LessonStep, settings: Settings): [HearingSide, HearingSide] {
  const side = (way: number) => {
    const report = reportWith(state, at, step.ways[way]?.values ?? {}, settings)
    return report === null ? ALONE : sideOf(report, step.trace)
  }
  return [side(0), side(1)]
}
