// The lessons that ship with the page, as they stand in their files.

import byEar from '../../../crate/lessons/by-ear.json'
import hum from '../../../crate/lessons/hum.json'
import levels from '../../../crate/lessons/levels.json'
import passiveBass from '../../../crate/lessons/passive-bass.json'
import { language } from '../base/language'
import { isRecord } from '../base/shape'

export interface Shipped {
  readonly id: string
  readonly title: string
  /** That of its title: the reader's, where the lesson has it. */
  readonly language: string
  readonly minutes: number
  readonly revision: number
  /** Not read yet. */
  readonly file: unknown
}

export const shipped: readonly Shipped[] = [passiveBass, hum, levels, byEar].map((file: unknown) => {
  const { id, title, minutes, revision, variants, language: own } = isRecord(file) ? file : {}
  const told = isRecord(variants) ? variants[language] : undefined
  const [shown, shownIn] = isRecord(told) ? [told['title'], language] : [title, own]
  return {
    ...{ id: `${id}`, title: `${shown}`, language: `${shownIn}` },
    ...{ minutes: Number(minutes), revision: Number(revision), file },
  }
})
