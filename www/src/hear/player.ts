// Two rigs that are played in turn: what the engine is asked for, and in which order.

import {
  wantHear,
  type HearEngine,
  type Hearing,
  type HearingSide,
  type HearingWays,
  type HeardSides,
  type SideName,
} from '../engine/hearing'
import { SoleSound } from '../engine/sole-sound'
import type { Source } from './source'
import { isOfRecording, whyOf, type Why } from './why'

/** What is to be heard; a piece that is another object is given to the engine anew. */
export interface Asked {
  readonly a: HearingSide
  readonly b: HearingSide
  readonly ways: HearingWays
  readonly source: Source
  /** Decibels from where it starts: nought or less. */
  readonly volume: number
  readonly onWrongRecording: (source: Source) => void
}

export type Sounding = { readonly kind: 'silent' | 'opening' } | { readonly kind: 'playing'; readonly side: SideName }

/** How it stands. */
export interface Played {
  readonly sounding: Sounding
  /** What came of what was asked last. */
  readonly heard: HeardSides | null
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
  /** What the engine makes sound of. */
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

  /** Whether what plays is no longer what is asked for. */
  isBehind(): boolean {
    const { a, b, ways, source } = this.asked
    const given = this.#given
    if (this.#sounding.kind !== 'playing' || given === null) return false
    return given.a !== a || given.b !== b || given.ways !== ways || given.source !== source
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
    const { asked } = this
    if (this.#given?.source !== asked.source) {
      await this.#bring(hearing, asked.source, mine)
      if (mine !== this.#press) return false
      if (asked.source !== this.asked.source) {
        // Another one was chosen meanwhile, and what came last is not that.
        this.#given = null
        return this.#give(hearing, mine)
      }
    }
    const heard = hearing.sides(asked.a, asked.b, asked.ways)
    this.#given = asked
    this.#tell({ heard })
    return true
  }

  /** Gives the engine what is to be played. */
  async #bring(hearing: Hearing, source: Source, mine: number): Promise<void> {
    if ('made' in source) {
      hearing.source(source.made)
      return
    }
    try {
      await hearing.recording(await bytesOf(source.file))
    } catch (error) {
      if (mine === this.#press && isOfRecording(whyOf(error))) this.asked.onWrongRecording(source)
      throw error
    }
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

/** Once what was drawn is seen: the engine then has the page to itself for a moment. */
function painted(): Promise<void> {
  return new Promise(done => requestAnimationFrame(() => setTimeout(done)))
}
