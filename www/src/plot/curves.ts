// All curves of one plot: those of the present values and those that are held.

import type { Description, Plot, Trace } from '../../generated/contract'
import { differences, type Difference } from './difference'
import { isHidden } from '../screen/embed'
import { embedOf, getState, type Good, type Held } from '../screen/store'
import { say } from '../base/words'

export interface Curve {
  readonly key: string
  readonly trace: Trace
  /** What it is, in words, one piece a line. */
  readonly lines: readonly string[]
  /** The place of its value set: 0 is the present one, then the held ones. */
  readonly set: number
  /** Its place among the curves of its set. */
  readonly rank: number
}

/** What each value set is, in words: first the present one, then how each held one differs from it. */
export function setNames(description: Description, good: Good, held: readonly Held[]): string[][] {
  const embed = embedOf(getState())
  const told = (set: Good['fields'], other: Good['fields']) =>
    differences(description, set, other).filter(({ field }) => !isHidden(embed, field))
  const others = held.map(({ fields }) => told(fields, good.fields))
  const fields = new Set(others.flat().map(({ field }) => field))
  // Where one field alone sets them apart, it says most of the present values too.
  const own = held.flatMap(({ fields }) => told(good.fields, fields)).find(({ field }) => fields.has(field))
  const now = fields.size === 1 && own !== undefined ? [named(own)] : [say('now')]
  const alike = (index: number) =>
    differences(description, held[index]?.fields ?? {}, good.fields).length > 0 ? 'held-hidden' : 'held-same'
  return [now, ...others.map((others, index) => (others.length > 0 ? others.map(named) : [say(alike(index))]))]
}

/** Two differences tell curves apart; where there are more, the list of what is held has them all. */
function shortened(names: readonly string[]): readonly string[] {
  if (names.length <= 3) return names
  return [...names.slice(0, 2), say('more', { count: String(names.length - 2) })]
}

function named({ name, text }: Difference): string {
  return `${name} ${text === '' ? say('absent') : text}`
}

export function curvesOf(plot: Plot, held: readonly Held[], names: readonly (readonly string[])[]): Curve[] {
  const { names: places } = plot.x
  const sets = [plot, ...held.map(({ report }) => report?.plots.find(({ id }) => id === plot.id))]
  return sets.flatMap((plot, set) => {
    const shown = plot?.traces.filter(({ reference }) => set === 0 || !reference) ?? []
    const traces = set === 0 || places.length === 0 ? shown : shown.map(trace => atPlaces(trace, plot, places))
    const several = traces.filter(({ reference }) => !reference).length > 1
    return traces.map((trace, rank) => {
      const own = several || trace.reference || held.length === 0 ? [trace.name] : []
      const apart = held.length > 0 && !trace.reference ? shortened(names[set] ?? []) : []
      return { key: `${set} ${trace.id}`, trace, lines: [...apart, ...own], set, rank }
    })
  })
}

/** A held curve at the places that the present values have too, by their names. */
function atPlaces(trace: Trace, plot: Plot | undefined, places: readonly string[]): Trace {
  const found = trace.x
    .map((place, index) => ({ x: places.indexOf(plot?.x.names[place] ?? ''), y: trace.y[index] ?? NaN }))
    .filter(({ x }) => x >= 0)
    .sort((a, b) => a.x - b.x)
  return { ...trace, x: found.map(({ x }) => x), y: found.map(({ y }) => y) }
}

/** The plots of the held values that are the same as this one, for a frame that holds them all. */
export function heldPlots(held: readonly Held[], { id }: Pick<Plot, 'id'>): Plot[] {
  return held.flatMap(({ report }) => report?.plots.filter(plot => plot.id === id) ?? [])
}
