// What the calculators ask for. One is described when it is opened: a link need
// not wait for the others. What the engine has not got yet is not described.

import type { Description, Settings } from '../../generated/contract'
import { describe, describeAll, hasCalculator, isWhole } from '../engine/engine'
import type { State } from './store'

interface Known {
  readonly settings: Settings
  readonly one: Map<string, Description | undefined>
  all: readonly Description[] | null
}

let known: Known | null = null

function under(settings: Settings): Known {
  if (known?.settings !== settings) known = { settings, one: new Map(), all: null }
  return known
}

export function allDescriptions(settings: Settings): readonly Description[] {
  if (!isWhole()) return []
  const known = under(settings)
  return (known.all ??= describeAll(settings))
}

export function descriptionOf(calculator: string, settings: Settings): Description | undefined {
  if (!hasCalculator(calculator)) return undefined
  const { one } = under(settings)
  if (!one.has(calculator)) one.set(calculator, describe(calculator, settings) ?? undefined)
  return one.get(calculator)
}

/** That of the calculator on the screen. */
export function shownDescription({ place, settings }: State): Description | undefined {
  return place.kind === 'calculator' ? descriptionOf(place.filling.calculator, settings) : undefined
}
