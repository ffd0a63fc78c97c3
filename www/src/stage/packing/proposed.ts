// A proposal beside the show: what it would change, and whether it still speaks of it.

import type { Figure, InputLine, Proposal, Row, Show, Suggestion } from '../../../generated/contract'

/** A line that would get another box or pad. */
export interface Change {
  readonly line: InputLine
  readonly suggestion: Suggestion
}

/** What a proposal would change of the show as it is now. */
export function changesOf({ lines }: Show, proposal: Proposal): Change[] {
  const suggested = new Map(proposal.lines.map(suggestion => [suggestion.id, suggestion]))
  return lines.flatMap(line => {
    const suggestion = suggested.get(line.id)
    const same = suggestion === undefined || (suggestion.di === line.di && suggestion.pad === line.pad)
    return same ? [] : [{ line, suggestion }]
  })
}

/** Puts boxes and pads on the lines. */
export function take(draft: Show, changes: readonly Change[]): void {
  const byId = new Map(changes.map(({ suggestion }) => [suggestion.id, suggestion]))
  for (const line of draft.lines) {
    const suggestion = byId.get(line.id)
    if (suggestion !== undefined) Object.assign(line, { di: suggestion.di, pad: suggestion.pad })
  }
}

/** Whether two shows differ in nothing that a proposal asks about: of what is on a line it minds isolators alone. */
export function isSameQuestion(one: Show, other: Show): boolean {
  const same = (key: 'gear' | 'power' | 'equipment' | 'limits' | 'mains') => one[key] === other[key]
  const stay = new Set(one.gear.filter(({ kind }) => kind === 'isolator').map(({ id }) => id))
  const bare = (line: InputLine | undefined) =>
    JSON.stringify({ ...line, di: line !== undefined && stay.has(line.di) ? line.di : '', pad: '' })
  return (
    (['gear', 'power', 'equipment', 'limits', 'mains'] as const).every(same) &&
    one.lines.length === other.lines.length &&
    one.lines.every((line, place) => line === other.lines[place] || bare(line) === bare(other.lines[place]))
  )
}

/** How many limits all lines miss together. */
export function missedNow(rows: ReadonlyMap<string, Row>): number {
  return [...rows.values()].flatMap(({ figures }) => figures).filter(isMissedAlone).length
}

/** Whether a line misses a limit by itself, as the proposal looks at lines, whatever else is plugged in. */
function isMissedAlone({ alone, limit, margin }: Figure): boolean {
  return (alone !== null && limit !== null ? alone - limit : (margin ?? 0)) < 0
}
