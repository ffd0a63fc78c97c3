// What makes rigs heard: its engine comes once it is wanted.

import type { RigSound } from '../../generated/contract'
import { runPart } from '../base/part'
import { bringModule } from './engine-files'

export type { RigSound }

/** A sound that the engine makes up. */
export type HearSource = 'bass' | 'guitar' | 'keys' | 'speech'

/** A rig, to be heard. */
export interface HearingSide {
  /** Nothing where it is flat. */
  readonly response: { readonly hz: readonly number[]; readonly db: readonly number[] } | null
  readonly sound: RigSound | null
}

/** Which of two rigs. */
export type SideName = 'a' | 'b'

/** What of the rigs is heard. */
export interface HearingWays {
  readonly matched: boolean
  readonly hum: boolean
  readonly noise: boolean
  readonly clipping: boolean
}

/** How a rig came out, in decibels. */
export interface SideHeard {
  /** As it is played with the volume all the way up, LUFS. */
  readonly loudness: number
  /** What brought it to the loudness of the other one. */
  readonly gain: number
}

export type HeardSides = Readonly<Record<SideName, SideHeard>> & {
  /** Whether hardly anybody would hear a difference. */
  readonly unheard: boolean
}

/** Two rigs that are played in turn; what it throws are keys of messages. */
export interface Hearing {
  readonly playing: boolean
  source(kind: HearSource): void
  /** It is the source until another one is chosen. */
  recording(bytes: Uint8Array): Promise<void>
  sides(a: HearingSide, b: HearingSide, ways: HearingWays): HeardSides
  play(side: SideName): void
  switchTo(side: SideName): void
  stop(): void
  volume(db: number): void
  onStopped(callback: (why: string) => void): void
  free(): void
}

/** What the engine brings; a `Hearing` is made within a press. */
export interface HearEngine {
  readonly Hearing: new () => Hearing
}

interface Glue extends HearEngine {
  initSync(made: { readonly module: WebAssembly.Module }): unknown
}

let coming: Promise<HearEngine> | null = null

/** Fetches what makes a `Hearing`; one that did not come is asked for again the next time. */
export async function wantHear(): Promise<HearEngine> {
  coming ??= bring()
  try {
    return await coming
  } catch (error) {
    coming = null
    throw error
  }
}

async function bring(): Promise<HearEngine> {
  const [module] = await Promise.all([bringModule('hear-wasm'), runPart('hear-glue')])
  const glue = (globalThis as unknown as { readonly hearGlue: () => Glue }).hearGlue()
  glue.initSync({ module })
  return glue
}
