// Two rigs that are played in turn: what the engine is asked for, and in which order.

import {
  wantHear,
  type HearEngine,
  type Hearing,
  type HearingWays,
  type HeardSides,
  type SideName,
} from '../engine/hearing'
import { SoleSound } from '../engine/sole-sound'
import { painted } from './painted'
import type { Rig } from './rigs'
import type { Source } from './source'
import { isOfRecording, whyOf, type Why } from './why'

/** What is to be heard; a piece that is another object is given to the engine anew. */
export interface Asked {
  /** Of these it is what is heard that counts, not what they are called. */
  readonly rigs: readonly [Rig, Rig]
  readonly ways: HearingWays
  readonly source: Source
  /** Decibels from where it starts: nought or less. */
  readonly volume: number
  readonly onWrongRecording: (source: Source) => void
}

export type Sounding = { readonly kind: 'silent' | 'opening' } | { readonly kind: 'playing'; readonly side: SideName }

/** Figures, and what they are of. */
export interface Heard {
  readonly sides: HeardSides
  readonly of: Pick<Asked, 'rigs' | 'ways'>
}

/** How it stands. */
export interface Played {
  readonly sounding: Sounding
  /** What came of what was asked last. */
  readonly heard: Heard | null
  /** Why there is no sound, or not that which was asked for. */
  readonly why: Why | null
}

export const UNPLAYED: Played = { sounding: { kind: 'silent' }, heard: null, why: null }

export class Player {
  /** The newest that is asked for. */
  asked: Asked
  readonly #tell: (change: Partial<Played>) => void
  #engine: HearEngine | null = null
  #hearing: Hearing | null = null
  /** What the engine has for a source: a recording that comes late takes the place of a newer one. */
  #source: Source | null = null
  /** What was made into the sound that there is. */
  #given: Asked | null = null
  #sounding: Sounding = UNPLAYED.sounding
  /** The newest press counts, whatever comes back late. */
  #press = 0
  readonly #sole = new SoleSound(() => this.stop('hear-elsewhere'))

  constructor(asked: Asked, tell: (change: Partial<Played>) => void) {
    this.asked = asked
    this.#tell = tell
    // It comes while the caution is read.
    wantHear().then(
      come => (this.#engine = come),
      () => undefined,
    )
  }

  async play(): Promise<void> {
    const mine = ++this.#press
    this.#put({ kind: 'opening' }, null)
    try {
      const engine = this.#engine ?? (await cameAtLast())
      if (mine !== this.#press) return
      // Nothing waited where the engine was there: some browsers let sound start in the press alone.
      const hearing = (this.#hearing ??= this.#opened(engine))
      await painted()
      if (mine !== this.#press || !(await this.#give(hearing, mine))) return
      hearing.volume(this.asked.volume)
      this.#sole.begin()
      hearing.play('a')
      this.#put({ kind: 'playing', side: 'a' }, null)
    } catch (error) {
      if (mine === this.#press) this.#fail(error)
    }
  }

  toggle(): void {
    if (this.#sounding.kind !== 'playing') return
    const side = this.#sounding.side === 'a' ? 'b' : 'a'
    try {
      this.#hearing?.switchTo(side)
      this.#put({ kind: 'playing', side }, null)
    } catch (error) {
      this.#fail(error)
    }
  }

  stop(why: Why | null = null): void {
    this.#press++
    this.#sole.end()
    this.#hearing?.stop()
    this.#put({ kind: 'silent' }, why)
  }

  /** Whether it is heard, or will be. */
  get isOn(): boolean {
    return this.#sounding.kind !== 'silent'
  }

  hide(): void {
    this.stop('hear-hidden')
  }

  /** Whether what plays is no longer what is asked for. */
  isBehind(): boolean {
    return this.#sounding.kind === 'playing' && !this.isGiven()
  }

  /** Whether the sound that there is was made of what is asked for. */
  isGiven(): boolean {
    const { rigs, ways, source } = this.asked
    const given = this.#given
    if (given === null || given.ways !== ways || given.source !== source) return false
    return rigs.every(({ side }, place) => given.rigs[place]?.side === side)
  }

  /** Goes on with what is asked for by now. */
  async follow(): Promise<void> {
    const mine = this.#press
    if (this.#hearing === null || !this.isBehind()) return
    try {
      if (await this.#give(this.#hearing, mine)) this.#tell({ why: null })
    } catch (error) {
      if (mine === this.#press) this.#fail(error)
    }
  }

  /** Tells what is wrong with a recording that was chosen: nothing, as far as one sees. */
  chosen(wrong: Why | null): void {
    this.#tell({ why: wrong })
  }

  turn(): void {
    this.#hearing?.volume(this.asked.volume)
  }

  /** Gives the output back. */
  close(): void {
    this.#press++
    this.#sole.end()
    this.#hearing?.free()
    this.#hearing = null
    this.#source = null
    this.#given = null
  }

  #opened({ Hearing }: HearEngine): Hearing {
    const made = new Hearing()
    made.onStopped(told => {
      if (this.#hearing !== made) return
      this.stop(whyOf(told))
      // It is still telling; the next press opens what output there is then.
      setTimeout(() => this.#hearing === made && this.close())
    })
    return made
  }

  /** Makes sound of what is asked; false where something else was pressed meanwhile. */
  async #give(hearing: Hearing, mine: number): Promise<boolean> {
    while (this.#source !== this.asked.source) {
      await this.#bring(hearing, this.asked.source, mine)
      if (mine !== this.#press) return false
    }
    const of = this.asked
    const [a, b] = of.rigs
    const sides = hearing.sides(a.side, b.side, of.ways)
    this.#given = of
    this.#tell({ heard: { sides, of } })
    return true
  }

  /** Gives the engine what is to be played. */
  async #bring(hearing: Hearing, source: Source, mine: number): Promise<void> {
    if ('made' in source) hearing.source(source.made)
    else {
      try {
        await hearing.recording(await bytesOf(source.file))
      } catch (error) {
        if (mine === this.#press && isOfRecording(whyOf(error))) this.asked.onWrongRecording(source)
        throw error
      }
    }
    if (this.#hearing === hearing) this.#source = source
  }

  #fail(error: unknown): void {
    const why = whyOf(error)
    // The engine keeps its source until a recording is one: what plays goes on.
    if (isOfRecording(why) && this.#sounding.kind === 'playing') {
      this.#tell({ why })
      return
    }
    this.stop(why)
    if (!isOfRecording(why)) this.close()
  }

  #put(sounding: Sounding, why: Why | null): void {
    this.#sounding = sounding
    this.#tell({ sounding, why })
  }
}

async function bytesOf(file: File): Promise<Uint8Array> {
  try {
    return new Uint8Array(await file.arrayBuffer())
  } catch {
    // What the engine throws are keys too.
    throw 'hear-recording'
  }
}

async function cameAtLast(): Promise<HearEngine> {
  try {
    return await wantHear()
  } catch {
    throw 'hear-missing'
  }
}
