// The two rigs of a step, to be listened to. Which of them X is, the core is asked once X is
// pressed, and nothing on the page keeps it.

import type { EarSide, LessonStep, Report, Settings } from '../../generated/contract'
import { askStage } from '../engine/stage'
import { getState } from '../screen/store'
import { SoleSound } from '../engine/sole-sound'
import { wantHear, type HearEngine, type Hearing, type HearingSide, type RigSound } from '../engine/hearing'
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

/** What is heard of a report. */
const RESPONSE = 'response'

export class EarPlayer {
  #hearing: Hearing | null = null
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
      const hearing = this.#open(engine, asked)
      const { lesson, seed } = asked.state
      const side = which === 'x' ? await askStage('lesson_x', lesson, seed, asked.at, trial) : which
      if (mine !== this.#press) return
      this.#opening = false
      if (side === null) return
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

  #open({ Hearing }: HearEngine, { state, at, step }: Asked): Hearing {
    if (this.#hearing !== null) return this.#hearing
    const hearing = new Hearing()
    this.#hearing = hearing
    hearing.source(step.source)
    const [a, b] = sidesOf(state, at, step, getState().settings)
    hearing.sides(a, b, { matched: !step.as_it_is, hum: true, noise: true, clipping: true })
    hearing.volume(this.#decibels)
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

  /** Whether it is heard, or will be. */
  get isOn(): boolean {
    return this.#opening || this.#hearing?.playing === true
  }

  /** What could not be heard stays told. */
  stop(kind: 'silent' | Stopped = 'silent'): void {
    this.#press++
    this.#sole.end()
    if (!this.isOn) return
    if (this.#opening) this.free()
    this.#hearing?.stop()
    this.#tell({ kind })
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
  }
}

/** A and B as they are heard. */
function sidesOf(state: LessonState, at: number, step: LessonStep, settings: Settings): [HearingSide, HearingSide] {
  const side = (way: number) => sideOf(reportWith(state, at, step.ways[way]?.values ?? {}, settings), step.trace)
  return [side(0), side(1)]
}

function sideOf(report: Report | null, trace: string): HearingSide {
  const plot = report?.plots.find(({ id }) => id === RESPONSE)
  const heard = plot?.traces.find(({ id, reference }) => (trace === '' ? !reference : id === trace))
  const { sound = null } = (report ?? {}) as { readonly sound?: RigSound | null }
  return { response: heard === undefined ? null : { hz: heard.x, db: heard.y }, sound }
}
