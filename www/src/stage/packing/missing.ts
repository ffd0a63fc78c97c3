import type { Totals } from '../../../generated/contract'
import { say } from '../../base/words'
import { lengthOf, type PrintLength } from './leads'

/** What the drawer lacks, in words: parts, then leads by kind and length. */
export function missingOf({ parts, leads }: Totals, length: PrintLength): string[] {
  const many = (count: number, name: string) => say('stage-so-many', { count: `${count}`, name })
  const named = parts.filter(({ missing }) => missing > 0).map(({ missing, name }) => many(missing, name))
  const needs = leads.flatMap(({ name, needs }) => needs.map(need => ({ ...need, name })))
  const lacking = needs.filter(({ missing }) => missing > 0)
  return [
    ...named,
    ...lacking.map(({ name, missing, length: metres }) => many(missing, `${name}, ${lengthOf(metres, length)}`)),
  ]
}
