// The one place where the page's state lives, and how views listen to it.

import type { FunctionComponent } from 'preact'
import type {
  Answer,
  Backwards,
  Cure,
  Echo,
  FieldDescription,
  Report,
  Settings,
  Spread,
} from '../../generated/contract'
import { usePiece } from '../base/use-piece'
import type { Embed } from './embed'
import type { Place, Texts } from './link'
import type { Theme } from './theme'

/** A value set that is held to compare with, and its answer. */
export interface Held {
  readonly texts: Texts
  readonly fields: Readonly<Record<string, Echo>>
  readonly report: Report | null
}

/** An answer that has a report. */
export interface Good {
  readonly texts: Texts
  readonly fields: Readonly<Record<string, Echo>>
  readonly report: Report
}

/** Whether the whole engine is there; what it is not needed for goes on without it. */
export type Whole = 'coming' | 'here' | 'missing'

export interface State {
  readonly settings: Settings
  readonly theme: Theme
  readonly place: Place
  readonly whole: Whole
  /** How the empty calculator reads: its defaults. */
  readonly blank: Readonly<Record<string, Echo>>
  /** The answer to what is typed now. Of its report there may be no more yet than what is read first. */
  readonly answer: Answer | null
  /** The last whole answer that had a report. */
  readonly good: Good | null
  /** The same, or what is read first of a newer one, which all else follows in a frame to come. */
  readonly lead: Good | null
  readonly held: readonly Held[]
  /** Whether the working is open. */
  readonly working: boolean
  readonly backwards: Backwards | null
  /** What would mend the limits that are missed. */
  readonly cures: readonly Cure[]
  /** Whether an answer backwards is being looked for. */
  readonly asking: boolean
  /** What tolerances do, of the values of `good` unless it is being looked for. */
  readonly spread: Spread | null
  /** Whether what tolerances do is being looked for. */
  readonly spreading: boolean
  /** Whether what is on the screen is too much for a link. */
  readonly full: boolean
  /** Whether there is a step to undo on this calculator, and one to do again. */
  readonly undoable: boolean
  readonly redoable: boolean
  /** What stands beside a field that gear could fill; it comes with the stage. */
  readonly gear?: { readonly FromGear: FunctionComponent<{ readonly field: FieldDescription }> }
}

type Listener = () => void

let state: State
const listeners = new Set<Listener>()

export function getState(): State {
  return state
}

/** Changes the state; the views follow with the next `setState`. */
export function putState(change: Partial<State>): void {
  state = { ...state, ...change }
}

export function setState(change: Partial<State>): void {
  putState(change)
  for (const listener of [...listeners]) listener()
}

/** A piece of the state; the view is drawn again when the piece is another. */
export function useStore<T>(select: (state: State) => T): T {
  return usePiece(listeners, getState, select)
}

export function embedOf({ place }: State): Embed | null {
  return place.kind === 'calculator' ? place.filling.embed : null
}

/** Whether the page is in a lesson at all, even where its address cannot be read. */
export function isEmbedded(state: State): boolean {
  return embedOf(state) !== null || (state.place.kind !== 'calculator' && 'lesson' in document.documentElement.dataset)
}
