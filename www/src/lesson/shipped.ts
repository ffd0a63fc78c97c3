// The lessons that ship with the page, as they stand in their files.

import hum from '../../../crate/lessons/hum.json'
import levels from '../../../crate/lessons/levels.json'
import passiveBass from '../../../crate/lessons/passive-bass.json'
import { isRecord } from '../base/shape'

export interface Shipped {
  readonly id: string
  readonly title: string
  readonly minutes: number
  readonly revision: number
  /** Not read yet. */
  readonly file: unknown
}

export const shipped: readonly Shipped[] = [passiveBass, hum, levels].map((file: unknown) => {
  const { id, title, minutes, revision } = isRecord(file) ? file : {}
  return { id: `${id}`, title: `${title}`, minutes: Number(minutes), revision: Number(revision), file }
})
