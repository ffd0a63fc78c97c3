// What an author chose for the frame of a calculator in a lesson. It lasts on this
// device, calculator by calculator, until it is chosen anew.

import { isRecord, keepChoice, load } from '../base/kept'
import { THEMES, type Theme } from '../screen/theme'
import { FORMS, type Form } from './embed-code'

export const USES = ['hidden', 'locked', 'open'] as const
export type Use = (typeof USES)[number]
/** What is to become of each field; one that is not named is hidden. */
export type Uses = Readonly<Record<string, Use>>

export const LAYOUTS = ['compact', 'full'] as const
export const WORKINGS = ['closed', 'open'] as const

export interface Chosen {
  readonly uses: Uses
  readonly layout: (typeof LAYOUTS)[number]
  readonly working: (typeof WORKINGS)[number]
  readonly theme: Theme
  readonly form: Form
}

type All = Readonly<Record<string, Chosen>>

const KEY = 'lesson-frames'
const FIRST: Chosen = { uses: {}, layout: 'compact', working: 'closed', theme: 'system', form: 'frame' }

export function choiceOf(uses: Uses, field: string): Use {
  return uses[field] ?? 'hidden'
}

export function chosenFor(calculator: string): Chosen {
  return all()[calculator] ?? FIRST
}

export function keepChosen(calculator: string, chosen: Chosen): void {
  keepChoice(KEY, { ...all(), [calculator]: chosen })
}

function all(): All {
  return load(KEY, areAll) ?? {}
}

function areAll(value: unknown): value is All {
  return isRecord(value) && Object.values(value).every(isChosen)
}

function isChosen(value: unknown): boolean {
  if (!isRecord(value)) return false
  const { uses, layout, working, theme, form } = value
  return (
    isRecord(uses) &&
    Object.values(uses).every(use => isOf(USES, use)) &&
    isOf(LAYOUTS, layout) &&
    isOf(WORKINGS, working) &&
    isOf(THEMES, theme) &&
    isOf(FORMS, form)
  )
}

function isOf(all: readonly string[], value: unknown): boolean {
  return typeof value === 'string' && all.includes(value)
}
