// What sets of values apart, in words.

import type { Description, Echo } from '../../generated/contract'

type Fields = Readonly<Record<string, Echo>>

export interface Difference {
  readonly field: string
  readonly name: string
  readonly text: string
}

/**
 * The fields in which `set` differs from `other`, with what they hold in `set`.
 * A field that plays a part in one of them only is not among them: the choice
 * that brought it in is, and says it shorter.
 */
export function differences({ fields }: Description, set: Fields, other: Fields): Difference[] {
  return fields
    .filter(({ id }) => set[id]?.active !== false && other[id]?.active !== false && set[id]?.text !== other[id]?.text)
    .map(({ id, name, choice }) => {
      const text = set[id]?.text ?? ''
      return { field: id, name, text: choice?.options.find(option => option.id === text)?.name ?? text }
    })
}
