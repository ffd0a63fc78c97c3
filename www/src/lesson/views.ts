// How else than to a learner a lesson is shown: the trainer's ways, which the entry of the
// lessons hands in.

import { h, type ComponentChild, type FunctionComponent } from 'preact'
import type { LessonAddress } from './address'
import type { LessonState } from './lesson-state'

export interface Views {
  /** Of the lesson that is open, by what the address calls them. */
  readonly opened: Readonly<Record<string, FunctionComponent<{ readonly state: LessonState }>>>
  /** Those that open what the address names themselves. */
  readonly addressed: Readonly<Record<string, FunctionComponent<{ readonly address: LessonAddress }>>>
  /** The results that were handed in; `result` comes with the address. */
  readonly Collect: FunctionComponent<{ readonly result: string }>
}

let views: Views | null = null

export function setViews(given: Views): void {
  views = given
}

export function viewOf(name: string): Views['opened'][string] | undefined {
  return views !== null && Object.hasOwn(views.opened, name) ? views.opened[name] : undefined
}

/** What opens the lesson of the address itself; nothing where its view is none of these. */
export function addressed(address: LessonAddress): ComponentChild {
  const own = views !== null && Object.hasOwn(views.addressed, address.view) ? views.addressed[address.view] : undefined
  return own === undefined ? null : h(own, { address })
}

/** The results that were handed in, with the one of the address. */
export function collected(result: string): ComponentChild {
  return views === null ? null : h(views.Collect, { result })
}
