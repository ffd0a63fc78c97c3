// Texts written under one reader's settings, for a reader with others.

import type { Settings } from '../../generated/contract'
import { translateQuestion } from '../engine/engine'
import type { Filling, Place, Texts, Want } from './link'

interface Written {
  readonly texts: Texts
  readonly want: Want | null
}

/** The texts and the wanted value, rewritten where they would mean something else. */
export function translate(calculator: string, { texts, want }: Written, from: Settings, to: Settings): Written {
  if (from === to) return { texts, want }
  const backwards = want === null ? null : { reading: want.reading, value: want.text, field: want.field }
  const asked = {
    calculator,
    values: { ...texts },
    settings: from,
    working: false,
    backwards,
    brief: false,
    cures: false,
    tolerances: null,
  }
  const { values, wanted } = translateQuestion(asked, to)
  return {
    texts: Object.keys(values).length === 0 ? texts : { ...texts, ...values },
    want: want === null || wanted === null ? want : { ...want, text: wanted },
  }
}

/** A printed text as one would type it. */
export function tidy(text: string): string {
  return text.replaceAll('\u00a0', ' ').replaceAll('−', '-')
}

/** Whether two numbers are the same but for the last digits that print and reading cost. */
export function isNear(a: number, b: number | null | undefined): boolean {
  return typeof b === 'number' && Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b))
}

export function translated(place: Place & { kind: 'calculator' }, from: Settings, to: Settings): Place {
  return { ...place, filling: translateFilling(place.filling, from, to) }
}

function translateFilling(filling: Filling, from: Settings, to: Settings): Filling {
  const rewrite = (texts: Texts, want: Want | null) => translate(filling.calculator, { texts, want }, from, to)
  const { texts: current, want } = rewrite(filling.current, filling.want)
  return { ...filling, current, want, held: filling.held.map(texts => rewrite(texts, null).texts) }
}
