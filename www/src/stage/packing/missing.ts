import type { Totals } from '../../../generated/contract'
import { say } from '../../base/words'

/** What the drawer lacks, in words; leads of a length that no gear has stand by their length. */
export function missingOf({ parts, leads }: Totals, length: (metres: number) => string): string[] {
  const many = (count: number, name: string) => say('stage-so-many', { count: `${count}`, name })
  const named = parts.filter(({ missing }) => missing > 0).map(({ missing, name }) => many(missing, name))
  // A lead of the drawer of which there is none is among the parts already.
  const listed = parts.some(({ kind, have }) => kind === 'lead' && have === 0)
  const bare = listed ? [] : leads.filter(({ have }) => have === 0)
  return [...named, ...bare.map(lead => many(lead.used, say('stage-lead-of', { length: length(lead.length) })))]
}
