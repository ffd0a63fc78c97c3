// What sets of values apart, in words.

import type { Description, Echo } from '../generated/contract'

type Fields = Readonly<Record<string, Echo>>

export interface Difference {
  readonly field: string
  readonly name: string
  readonly text: string
}

/** The fields in which `set` differs from `other`, with what they hold in `set`. */
export function differences({ fields }: Description, set: Fields, other: Fields): Difference[] {
  return fields
    .filter(({ id }) => set[id]?.active !== false && (set[id]?.text !== other[id]?.text || other[id]?.active === false))
    .map(({ id, name, choice }) => {
      const text = set[id]?.text ?? ''
      return { field: id, name, text: choice?.options.find(option => option.id === text)?.name ?? text }
    })
}
